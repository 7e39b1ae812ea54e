"""What a PDF says of itself as a whole (ISO 14289-1, 5, 6.2, 7.1, 7.2, 7.16, 7.18.3, 7.19)."""

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
    read_text,
    read_value,
)
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.source import Source

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")
"""The shape of a language's tag (BCP 47), without its rarest forms."""
_FOR_READERS = 1 << 9
"""The right to take words out for those who don't see (ISO 32000-1, table 22, bit 10)."""
_ACTING = ("JavaScript", "Launch", "SubmitForm", "ImportData", "Rendition", "Movie", "Sound")


def find_mark_faults(opened: OpenedPdf, source: Source) -> Iterator[Fault]:
    """Yield what a PDF doesn't say of itself, or says wrongly."""
    root = opened.pdf.Root
    marks = read_dictionary(root, "/MarkInfo")
    if read_value(marks, "/Marked") is not True:
        yield Fault(rules.PDF_UNMARKED, "it doesn't say that its text is marked")
    if read_value(marks, "/Suspects") is True:
        yield Fault(rules.PDF_UNMARKED, "it says that its marks may be wrong")
    shown = read_dictionary(root, "/ViewerPreferences")
    if read_value(shown, "/DisplayDocTitle") is not True:
        yield Fault(rules.PDF_UNMARKED, "it would be shown under its file's name, not its title")
    yield from _find_metadata_faults(opened.pdf, source.title)
    for number, page in enumerate(opened.pdf.pages, 1):
        if "/Annots" in page.obj and read_name(page.obj, "/Tabs") != "S":
            fact = f"the Tab key goes through page {number} in no order"
            yield Fault(rules.PDF_UNMARKED, fact)


def _find_metadata_faults(pdf: pikepdf.Pdf, title: str) -> Iterator[Fault]:
    if not isinstance(pdf.Root.get("/Metadata"), pikepdf.Stream):
        yield Fault(rules.PDF_UNMARKED, "it has no metadata")
        return
    try:
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
            part, said = metadata.get("pdfuaid:part"), metadata.get("dc:title")
    except ValueError:  # what is no XML
        part, said = None, None
    if str(part) != "1":
        yield Fault(rules.PDF_UNMARKED, "its metadata doesn't name PDF/UA-1")
    if not str(said or "").strip():
        yield Fault(rules.PDF_UNMARKED, "it has no title")
    elif "".join(str(said).split()) != "".join(title.split()):
        yield Fault(rules.PDF_UNMARKED, f'its title is "{said}", and "{title}" was asked for')


def find_language_faults(opened: OpenedPdf, source: Source) -> Iterator[Fault]:
    """Yield where a voice wouldn't know in which language to read."""
    said = read_text(opened.pdf.Root, "/Lang") or ""
    if not _LANGUAGE.fullmatch(said):
        yield Fault(rules.PDF_LANGUAGE_UNSAID, "it doesn't say its language")
    elif said != source.language:
        fact = f'its language is "{said}", and that of its words "{source.language}"'
        yield Fault(rules.PDF_LANGUAGE_UNSAID, fact)
    for node in opened.nodes:
        if node.language is not None and not _LANGUAGE.fullmatch(node.language):
            fact = f'a part has "{node.language}" for its language'
            yield Fault(rules.PDF_LANGUAGE_UNSAID, fact)


def find_active_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield what runs by itself, or keeps programs that read aloud out."""
    root = opened.pdf.Root
    form = read_dictionary(root, "/AcroForm")
    if "/XFA" in form:
        yield Fault(rules.PDF_ACTIVE, "it has a form of the kind that only some programs show")
    names = read_dictionary(root, "/Names")
    if "/JavaScript" in names or "/AA" in root or _acts(root.get("/OpenAction")):
        yield Fault(rules.PDF_ACTIVE, "it runs something when it is opened")
    for page in opened.pdf.pages:
        notes = list_items(page.obj.get("/Annots"))
        if "/AA" in page.obj or any(_acts_when_pressed(note) for note in notes):
            yield Fault(rules.PDF_ACTIVE, "it runs something from a page")
    locked = read_dictionary(opened.pdf.trailer, "/Encrypt")
    rights = read_number(locked, "/P")
    if len(locked) and not (rights or 0) & _FOR_READERS:
        yield Fault(rules.PDF_ACTIVE, "it is locked to programs that read aloud")


def _acts_when_pressed(note: object) -> bool:
    if not isinstance(note, pikepdf.Dictionary):
        return False
    return "/AA" in note or _acts(note.get("/A"))


def _acts(action: object) -> bool:
    return isinstance(action, pikepdf.Dictionary) and read_name(action, "/S") in _ACTING
