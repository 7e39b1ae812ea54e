"""Finished cards, looked into with readers that didn't make them."""

from dataclasses import replace
from io import BytesIO
from itertools import chain

import pikepdf
import pypdf
import pypdfium2
import pytest
import zxingcpp

from builder.course.audience import Audience
from builder.course.base_poses import BASE_POSES
from builder.course.course import Course
from builder.course.figure import BreathPlace, Contacts, Figure, Stance, View
from builder.course.lesson import Passage
from builder.course.notice import Action
from builder.publishing.cards.html import read_style, write_front
from builder.publishing.cards.pdf import Press, open_press
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.setting import Setting
from builder.publishing.cards.words import list_lesson_words, list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts
from builder.publishing.proof.safety.pdf_fonts import find_foreign_fonts
from builder.resources import find_templates
from builder.sums.version import find_version
from tests.publishing.conftest import make_face

# Points of 1/72 inch. A series: ISO 216 in mm, by 72 / 25.4. Letter: ANSI/ASME Y14.1 size A,
# 8.5 x 11 in; half letter is its half; the index card is 5 x 8 in.
PUBLISHED_POINTS = {
    "a6": (297.638, 419.528),
    "a5": (419.528, 595.276),
    "a4": (595.276, 841.890),
    "half-letter": (396, 612),
    "letter": (612, 792),
    "index": (360, 576),
}


@pytest.mark.parametrize("paper", PUBLISHED_POINTS)
def test_a_card_is_one_page_of_the_published_size_with_every_word(
    small_course: Course, paper: str
) -> None:
    face = make_face(small_course, "short-hold", paper)
    record = print_card(face)
    (page,) = pypdf.PdfReader(BytesIO(record.pdf)).pages
    size = (float(page.mediabox.width), float(page.mediabox.height))
    assert size == pytest.approx(PUBLISHED_POINTS[paper], abs=0.01)
    assert find_missing_texts(page.extract_text(), list_wanted_words(face)) == ()
    assert record.is_sound(face.paper.floor_points)


def test_words_in_every_style_of_markdown_are_in_our_own_letters(small_course: Course) -> None:
    lesson = small_course.by_id["short-hold"]
    step = Passage("Say `one`, *two*, **three** and ***four***.", 1)
    styled = replace(lesson, words=replace(lesson.words, steps=(step,)))
    face = make_face(replace(small_course, lessons=(styled,)), "short-hold")
    assert "<code>one</code>" in write_front(face, Setting(8, is_dense=True))
    assert find_foreign_fonts(print_card(face).pdf) == ()


@pytest.mark.parametrize("paper", PUBLISHED_POINTS)
def test_the_code_on_a_printed_card_opens_the_lessons_page(
    small_course: Course, paper: str
) -> None:
    pdf = print_card(make_face(small_course, "short-hold", paper)).pdf
    printed = pypdfium2.PdfDocument(pdf)[0].render(scale=200 / 72, grayscale=True).to_pil()
    codes = [code.text for code in zxingcpp.read_barcodes(printed)]
    version = find_version(small_course, small_course.by_id["short-hold"], Audience.CLIENT)
    assert codes == [f"https://small.example/lessons/count/short-hold/#card={version}"]


def test_a_coach_card_has_two_pages_and_the_notes_on_the_second(
    small_course: Course, coach_card: CardRecord
) -> None:
    first, second = pypdf.PdfReader(BytesIO(coach_card.pdf)).pages
    note = 'Say "soft throat" when somebody strains.'
    assert note not in first.extract_text()
    assert note in second.extract_text()
    assert "breath-hold" not in second.extract_text()
    face = make_face(small_course, "short-hold", "a5", Audience.COACH)
    assert find_missing_texts(first.extract_text(), list_lesson_words(face.lesson)) == ()


def test_type_is_never_smaller_than_asked_for_and_the_code_is_a_drawing(
    hold_card: CardRecord,
) -> None:
    (page,) = pypdf.PdfReader(BytesIO(hold_card.pdf)).pages
    drawn = {"in 3", "hold 3", "out 3"}  # this reader loses the scale of drawings
    sizes = []

    def measure(text: str, page_scale: list[float], scale: list[float], *font: object) -> None:
        if text.strip() and text.strip() not in drawn:
            sizes.append(float(str(font[1])) * abs(page_scale[3] * scale[3]))

    page.extract_text(visitor_text=measure)
    assert len(sizes) > 10
    assert min(sizes) >= 8 - 0.01
    assert len(page.images) == 0


def test_a_card_carries_the_marks_of_pdf_ua(hold_card: CardRecord) -> None:
    # ISO 14289-1:2014: 7.1 Marked and DisplayDocTitle, 7.2 Lang, 5 pdfuaid:part in the metadata,
    # 7.18.3 tab order only where there are annotations.
    with pikepdf.open(BytesIO(hold_card.pdf)) as pdf:
        assert str(pdf.Root.Lang) == "en-GB"
        assert bool(pdf.Root.MarkInfo.Marked) is True
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle) is True
        with pdf.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == "Short hold"
        assert pdf.pdf_version == "1.7"


def walk(node: pikepdf.Object) -> list[pikepdf.Dictionary]:
    """Return a structure element and all below it, in reading order."""
    if not isinstance(node, pikepdf.Dictionary) or "/S" not in node:
        return []
    kids = node.get("/K", [])
    inner = kids if isinstance(kids, pikepdf.Array) else [kids]
    return [node, *chain.from_iterable(walk(kid) for kid in inner)]


def test_the_structure_is_what_the_standard_takes(hold_card: CardRecord) -> None:
    # ISO 32000-1, 14.8.4, standard structure types; ISO 14289-1, 7.3 figures have Alt,
    # 7.4 headings begin with H1 and skip none, 7.6 lists are L, LI, Lbl, LBody.
    standard = {
        *("Document", "Part", "Art", "Sect", "Div", "NonStruct", "P", "H1", "H2"),
        *("L", "LI", "Lbl", "LBody", "Span", "Figure"),
    }
    with pikepdf.open(BytesIO(hold_card.pdf)) as pdf:
        nodes = walk(pdf.Root.StructTreeRoot.K[0])
        kinds = [str(node.S).removeprefix("/") for node in nodes]
        assert set(kinds) <= standard
        headings = [kind for kind in kinds if kind in ("H1", "H2")]
        assert headings[0] == "H1"
        assert headings.count("H1") == 1
        figures = [str(node.get("/Alt", "")) for node in nodes if node.S == "/Figure"]
        assert figures == [
            "Tempo 3-3-3-3: in 3, hold 3, out 3, hold 3",
            "QR code of https://small.example/lessons/count/short-hold/",
        ]
        assert kinds.count("LI") == kinds.count("Lbl") == kinds.count("LBody") == 2


def test_every_font_is_embedded_and_ours(hold_card: CardRecord) -> None:
    # ISO 14289-1, 7.21.4.1: fonts are embedded; 7.21.7: ToUnicode.
    with pikepdf.open(BytesIO(hold_card.pdf)) as pdf:
        fonts = pdf.pages[0].Resources.Font
        assert len(fonts) > 0
        for font in fonts.values():
            (inner,) = font.DescendantFonts
            assert "SourceSans3" in str(inner.BaseFont).replace("-", "")
            assert "/FontFile2" in inner.FontDescriptor or "/FontFile3" in inner.FontDescriptor
            assert "/ToUnicode" in font


def test_the_same_card_is_the_same_bytes_from_another_press(
    small_course: Course, hold_card: CardRecord
) -> None:
    fresh = Press(find_templates() / "fonts")
    again = print_card(make_face(small_course, "short-hold"), fresh)
    assert again == hold_card


def test_a_record_goes_through_the_cache_unchanged(hold_card: CardRecord) -> None:
    assert CardRecord.from_bytes(hold_card.to_bytes()) == hold_card


@pytest.mark.parametrize("filler", range(12))
def test_no_short_word_is_broken_where_a_line_of_notices_turns(
    small_course: Course, filler: int
) -> None:
    short = f"Uncertainly, {'so ' * filler}always."
    notices = tuple(
        replace(notice, short=short, action=Action.NOTE) for notice in small_course.notices
    )
    face = make_face(replace(small_course, notices=notices), "short-hold")
    html = write_front(face, Setting(8, is_dense=True))
    pdf = open_press().lay_out(html, read_style(face.paper)).write()
    (page,) = pypdf.PdfReader(BytesIO(pdf)).pages
    words = page.extract_text().split()
    assert words.count("Uncertainly,") == len(face.lesson.notices)
    assert words.count("always.") == len(face.lesson.notices)


def test_a_word_too_long_for_a_line_is_broken(small_course: Course) -> None:
    course = small_course
    lesson = replace(course.by_id["short-hold"], title="Long" + "er" * 120)
    lessons = tuple(lesson if old.id == lesson.id else old for old in course.lessons)
    face = make_face(replace(course, lessons=lessons), "short-hold")
    assert 'class="long"' in write_front(face, Setting(8, is_dense=True))
    assert print_card(face).is_sound(face.paper.floor_points)


def test_a_figure_stands_on_its_card_and_is_told_to_those_who_do_not_see_it(
    small_course: Course,
) -> None:
    stance = Stance("back-knees-bent", BASE_POSES["back-knees-bent"].pose, Contacts())
    figure = Figure(View.SIDE, stance, stance, (BreathPlace.BELLY,), {"mat": "under"})
    lesson = replace(small_course.by_id["short-hold"], figure=figure)
    lessons = tuple(lesson if old.id == lesson.id else old for old in small_course.lessons)
    record = print_card(make_face(replace(small_course, lessons=lessons), "short-hold"))
    assert record.is_sound(8)
    with pikepdf.open(BytesIO(record.pdf)) as pdf:
        told = [str(node.Alt) for node in walk(pdf.Root.StructTreeRoot.K[0]) if "/Alt" in node]
    (words,) = [text for text in told if text.startswith("Lying on the back")]
    assert "On the in-breath the belly rises." in words
    assert "With mat." in words
