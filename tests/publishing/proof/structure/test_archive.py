"""Archival PDFs: what PDF/A-2a (ISO 19005-2:2011) demands, and what is told where it is missing."""

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name, String

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.pack_plan import WHOLE_COURSE, plan_packs
from builder.publishing.cards.printing import print_card
from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from builder.publishing.proof.structure.opened import read_opened
from builder.publishing.proof.structure.source import Source
from builder.sums.paper import PAPERS
from tests.publishing.cards.test_packs import print_pack
from tests.publishing.conftest import make_face
from tests.publishing.proof.structure.conftest import Edit, rewrite


@pytest.fixture(scope="session")
def archival(small_course: Course) -> Course:
    return replace(small_course, settings=replace(small_course.settings, is_archival=True))


@pytest.fixture(scope="session")
def card(archival: Course) -> bytes:
    record = print_card(make_face(archival, "short-hold"))
    assert record.is_sound(8)
    return record.pdf


def find(content: bytes) -> str:
    wanted = Wanted(Source("en-GB", "Short hold", ()), is_archival=True)
    faults = find_structure_faults(content, wanted)
    return "\n".join(fault.fact for fault in faults if fault.rule.id == "A115")


def test_every_archival_card_is_sound_and_names_both_standards(
    archival: Course, card: bytes
) -> None:
    for lesson in archival.by_id:
        for audience in Audience:
            assert print_card(make_face(archival, lesson, "a5", audience)).is_sound(8)
    with pikepdf.open(BytesIO(card)) as pdf, pdf.open_metadata() as metadata:
        assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("2", "A")
        assert metadata["pdfuaid:part"] == "1"


def test_the_same_archival_card_is_the_same_bytes(archival: Course, card: bytes) -> None:
    assert print_card(make_face(archival, "short-hold")).pdf == card


def test_a_common_card_is_no_archival_one(small_course: Course) -> None:
    content = print_card(make_face(small_course, "short-hold")).pdf
    assert "its metadata doesn't name PDF/A-2a" in find(content)
    assert "it doesn't say how its colours are meant" in find(content)


def test_a_pack_of_archival_cards_is_one_too(archival: Course) -> None:
    packs = plan_packs(archival, archival.lessons, PAPERS["a6"])
    pack = next(each for each in packs if each.name == WHOLE_COURSE)
    cards = tuple(print_card(make_face(archival, lesson.id)).pdf for lesson in archival.lessons)
    assert find(print_pack(pack, cards)) == ""


def test_letters_are_as_wide_as_their_fonts_say(card: bytes) -> None:
    # ISO 19005-2, 6.2.11.5: no more than a thousandth of the type's size apart.
    with pikepdf.open(BytesIO(card)) as pdf:
        fonts = [font.DescendantFonts[0] for font in pdf.pages[0].Resources.Font.values()]
        assert fonts
        for font in fonts:
            program = TTFont(BytesIO(font.FontDescriptor.FontFile2.read_bytes()))
            scale = 1000 / program["head"].unitsPerEm
            advances = [program["hmtx"][name][0] * scale for name in program.getGlyphOrder()]
            runs = list(font.W)
            for first, widths in zip(runs[::2], runs[1::2], strict=True):
                for glyph, width in enumerate(widths, int(first)):
                    assert float(width) == pytest.approx(advances[glyph], abs=1)


def set_in_metadata(old: bytes, new: bytes) -> Edit:
    def edit(pdf: pikepdf.Pdf) -> None:
        content = pdf.Root.Metadata.read_bytes()
        assert old in content
        pdf.Root.Metadata = pdf.make_stream(content.replace(old, new))

    return edit


def add_part(part: Dictionary) -> Edit:
    return lambda pdf: pdf.Root.__setitem__("/Extra", pdf.make_indirect(part))


def add_stream(**names: object) -> Edit:
    def edit(pdf: pikepdf.Pdf) -> None:
        pdf.Root.Extra = pdf.make_stream(b"\0", Dictionary(**names))

    return edit


def add_note(kind: Name, flags: int) -> Edit:
    note = Dictionary(Subtype=kind, F=flags, Contents=String("x"), Rect=Array([0, 0, 1, 1]))
    return lambda pdf: pdf.pages[0].obj.__setitem__("/Annots", Array([note]))


EDITS: dict[str, tuple[Edit, str]] = {
    "no intent": (lambda pdf: pdf.Root.__delitem__("/OutputIntents"), "how its colours are meant"),
    "no profile": (
        lambda pdf: pdf.Root.OutputIntents[0].__setitem__(
            "/DestOutputProfile", pdf.make_stream(b"RGB", Dictionary(N=3))
        ),
        "how its colours are meant",
    ),
    "other part": (set_in_metadata(b'part="2"', b'part="4"'), "doesn't name PDF/A-2a"),
    "no extension": (set_in_metadata(b"pdfa/ns/extension/", b"x/"), "what it means by PDF/UA"),
    "attached": (
        lambda pdf: pdf.attachments.__setitem__("a.txt", b"x"),
        "files are attached to it",
    ),
    "inks": (lambda pdf: rewrite(pdf, b"/Span", b"0 0 0 1 k /Span"), "colours of printer's inks"),
    "elsewhere": (add_stream(F=String("x")), "a part of it lies in another file"),
    "drawn by chance": (add_stream(Interpolate=True), "looks different from program to program"),
    "program": (add_stream(Subtype=Name.PS), "a drawing is taken from elsewhere"),
    "curve": (add_part(Dictionary(TR=Name.Identity)), "changed as they are printed"),
    "blend": (add_part(Dictionary(BM=Name.Glow)), "mixed in a way of its own"),
    "font": (add_part(Dictionary(Subtype=Name.CIDFontType2)), "which sign is which"),
    "named": (add_part(Dictionary(S=Name.Named, N=Name.Print)), "does something of its own"),
    "film": (add_note(Name.Movie, 4), "of a kind that archives don't take"),
    "unprinted": (add_note(Name.Link, 0), "isn't printed, or is hidden"),
    "empty box": (lambda pdf: rewrite(pdf, b"[<", b"[<0000> <"), "shows an empty box"),
}


def test_an_untouched_archival_card_has_no_fault(card: bytes) -> None:
    assert find(card) == ""


@pytest.mark.parametrize("name", EDITS)
def test_each_edit_is_told(card: bytes, name: str) -> None:
    edit, told = EDITS[name]
    target = BytesIO()
    with pikepdf.open(BytesIO(card)) as pdf:
        edit(pdf)
        pdf.save(target)
    assert told in find(target.getvalue())


def test_a_file_of_another_kind_or_without_a_number_is_told(card: bytes) -> None:
    with pikepdf.open(BytesIO(card)) as pdf:
        assert read_opened(pdf).is_whole
    assert "its first lines aren't those" in find(card.replace(b"%PDF-1.7", b"%PDF-2.0", 1))
    assert "it has no number of its own" in find(card.replace(b"/ID", b"/IX"))
