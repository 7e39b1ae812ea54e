"""Whether a PDF can be kept for decades: the demands of PDF/A-2a that a file like ours could miss.

The clauses are of ISO 19005-2:2011. Tags, fonts, letters and languages are looked at for PDF/UA.
"""

import re
from collections.abc import Iterator

import pikepdf

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.objects import (
    list_items,
    read_dictionary,
    read_name,
    read_number,
    read_value,
)
from builder.publishing.proof.structure.opened import OpenedPdf

_HEADER = re.compile(rb"%PDF-1\.[0-7][\r\n]+%[\x80-\xff]{4}")
_PROFILE_MARK, _RGB = b"acsp", b"RGB "
"""At bytes 36 and 16 of a profile (ICC.1:2010, 7.2)."""
_EXTENSION = b"http://www.aiim.org/pdfa/ns/extension/"
_BLENDS = frozenset(
    [
        "Normal",
        "Compatible",
        "Multiply",
        "Screen",
        "Overlay",
        "Darken",
        "Lighten",
        "ColorDodge",
        "ColorBurn",
        "HardLight",
        "SoftLight",
        "Difference",
        "Exclusion",
        "Hue",
        "Saturation",
        "Color",
        "Luminosity",
    ]
)
_PRINT, _HIDING = 4, 0b100011
"""Flags of annotations: to print; invisible, hidden, not viewed (ISO 32000-1, table 165)."""
_NOTES = {"Link", "Text", "Highlight", "Popup", "Widget"}
_NAMED = {"NextPage", "PrevPage", "FirstPage", "LastPage"}


def find_archive_faults(opened: OpenedPdf, content: bytes) -> Iterator[Fault]:
    """Yield what keeps a PDF from being an archival one."""
    for fact in _find_facts(opened.pdf, content):
        yield Fault(rules.PDF_NOT_ARCHIVAL, fact)
    for key, codes in opened.contents.codes.items():
        if 0 in codes:  # 6.2.11.8
            fact = f'the font "{opened.contents.fonts[key].name}" shows an empty box'
            yield Fault(rules.PDF_NOT_ARCHIVAL, fact)


def _find_facts(pdf: pikepdf.Pdf, content: bytes) -> Iterator[str]:
    yield from _find_frame_facts(pdf, content)
    yield from _find_metadata_facts(pdf)
    yield from _find_colour_facts(pdf)
    for part in pdf.objects:
        if isinstance(part, pikepdf.Stream):
            yield from _find_stream_facts(part)
        if isinstance(part, pikepdf.Dictionary | pikepdf.Stream):
            yield from _find_part_facts(part)
    for page in pdf.pages:
        for note in list_items(page.obj.get("/Annots")):
            if isinstance(note, pikepdf.Dictionary):
                yield from _find_note_facts(note)


def _find_frame_facts(pdf: pikepdf.Pdf, content: bytes) -> Iterator[str]:
    if not _HEADER.match(content):  # 6.1.2
        yield "its first lines aren't those of a PDF up to 1.7"
    if len(list_items(read_value(pdf.trailer, "/ID"))) != 2:  # 6.1.3
        yield "it has no number of its own"
    if "/Encrypt" in pdf.trailer:  # 6.1.3
        yield "it is locked"
    names = read_dictionary(pdf.Root, "/Names")
    if "/EmbeddedFiles" in names or "/AF" in pdf.Root:  # 6.8
        yield "files are attached to it"
    if "/OCProperties" in pdf.Root and "/D" not in read_dictionary(pdf.Root, "/OCProperties"):
        yield "it has layers without an order"  # 6.9


def _find_metadata_facts(pdf: pikepdf.Pdf) -> Iterator[str]:
    stream = pdf.Root.get("/Metadata")
    if not isinstance(stream, pikepdf.Stream):
        yield "it has no metadata"  # 6.6.2.1
        return
    try:
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
            said = str(metadata.get("pdfaid:part")), str(metadata.get("pdfaid:conformance"))
    except ValueError:  # what is no XML
        said = "", ""
    if said != ("2", "A"):  # 6.6.4
        yield "its metadata doesn't name PDF/A-2a"
    if _EXTENSION not in stream.read_bytes():  # 6.6.2.3
        yield "its metadata doesn't say what it means by PDF/UA"


def _find_colour_facts(pdf: pikepdf.Pdf) -> Iterator[str]:
    intents = [
        each
        for each in list_items(pdf.Root.get("/OutputIntents"))
        if isinstance(each, pikepdf.Dictionary) and read_name(each, "/S") == "GTS_PDFA1"
    ]
    profiles = [each.get("/DestOutputProfile") for each in intents]
    sound = [
        each
        for each in profiles
        if isinstance(each, pikepdf.Stream) and _is_rgb(each.read_bytes(), read_number(each, "/N"))
    ]
    if not sound or len(sound) != len(intents):  # 6.2.3
        yield "it doesn't say how its colours are meant"
    for number, page in enumerate(pdf.pages, 1):
        if pikepdf.parse_content_stream(page, "k K"):  # 6.2.4.3
            yield f"page {number} has colours of printer's inks"


def _is_rgb(profile: bytes, colours: int | None) -> bool:
    return profile[36:40] == _PROFILE_MARK and profile[16:20] == _RGB and colours == 3


def _find_stream_facts(stream: pikepdf.Stream) -> Iterator[str]:
    filters = {str(each) for each in list_items(stream.get("/Filter"))}
    if filters & {"/LZWDecode", "/Crypt"}:  # 6.1.7.2
        yield "a part of it is packed in a way that archives don't take"
    if "/F" in stream:  # 6.1.7.1
        yield "a part of it lies in another file"
    if read_value(stream, "/Interpolate") is True or "/Alternates" in stream:  # 6.2.8
        yield "a picture looks different from program to program"
    if "/OPI" in stream or "/Ref" in stream or read_name(stream, "/Subtype") == "PS":  # 6.2.9
        yield "a drawing is taken from elsewhere"


def _find_part_facts(part: pikepdf.Object) -> Iterator[str]:
    if "/TR" in part or "/HTP" in part:  # 6.2.5
        yield "letters or lines are changed as they are printed"
    blends = {str(each).removeprefix("/") for each in list_items(part.get("/BM"))}
    if not blends <= _BLENDS:  # 6.2.10
        yield "colours are mixed in a way of its own"
    if "/EF" in part:  # 6.8
        yield "a file lies in it"
    if read_name(part, "/Subtype") == "CIDFontType2" and "/CIDToGIDMap" not in part:  # 6.2.11.3.2
        yield "a font doesn't say which sign is which"
    is_named = read_name(part, "/S") == "Named" and "/N" in part
    if is_named and read_name(part, "/N") not in _NAMED:  # 6.5.1
        yield "a link does something of its own"


def _find_note_facts(note: pikepdf.Dictionary) -> Iterator[str]:
    if read_name(note, "/Subtype") not in _NOTES:  # 6.3.1
        yield "an annotation is of a kind that archives don't take"
    flags = read_number(note, "/F") or 0
    if not flags & _PRINT or flags & _HIDING:  # 6.3.2
        yield "a link isn't printed, or is hidden"
