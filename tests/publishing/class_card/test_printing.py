"""Finished class cards, looked into with readers that didn't make them."""

import re
from dataclasses import replace
from io import BytesIO

import pikepdf
import pypdf
import pytest

from builder.errors import BuilderError
from builder.publishing.cards.pdf import open_press
from builder.publishing.class_card.html import make_face, read_class_style, write_class_card
from builder.publishing.class_card.printing import print_class_card
from builder.publishing.class_card.setting import ClassSetting, Level
from builder.publishing.class_card.words import find_missing_marks, find_missing_words
from builder.publishing.proof.read_back import fold_text, join_readings, read_pdf
from builder.sums.paper import PAPERS, choose_sheet
from tests.publishing.class_card.cards import find_smallest
from tests.publishing.demo_classes import view_demo, view_full_house

SMALL = "2026-11-26-small"
MIXED = "2026-11-24-mixed"


@pytest.fixture(scope="module")
def small_card() -> bytes:
    return print_class_card(view_demo(SMALL), PAPERS["a4"]).pdf


@pytest.fixture(scope="module", params=["a4", "letter"])
def full_card(request: pytest.FixtureRequest) -> bytes:
    card = print_class_card(view_full_house(), PAPERS[request.param])
    assert card.has_figures
    return card.pdf


def test_twelve_people_and_ten_blocks_stand_on_two_pages(full_card: bytes) -> None:
    view = view_full_house()
    assert (len(view.people), len(view.blocks)) == (12, 10)
    pages = pypdf.PdfReader(BytesIO(full_card)).pages
    assert len(pages) == 2
    for page in pages:
        size = (float(page.mediabox.width), float(page.mediabox.height))
        a4 = pytest.approx((595.276, 841.890), abs=0.01)  # ISO 216, 210 by 297 mm
        assert size in (a4, (612.0, 792.0))  # ANSI Y14.1, 8.5 by 11 inches


def test_lessons_and_times_are_14_points_and_nothing_is_under_9(full_card: bytes) -> None:
    view = view_full_house()
    sizes: dict[str, float] = {}

    def measure(text: str, page: list[float], scale: list[float], *font: object) -> None:
        if text.strip():
            points = float(str(font[1])) * abs(page[3] * scale[3])
            sizes[text.strip()] = max(points, sizes.get(text.strip(), 0))

    for page in pypdf.PdfReader(BytesIO(full_card)).pages:
        page.extract_text(visitor_text=measure)
    assert min(page.smallest_points for page in read_pdf(full_card)) >= 9
    titles = {turn.title for block in view.blocks for turn in block.turns}
    for title in titles:
        assert sizes.get(title, 14) >= 14 - 0.01
    assert len(titles & sizes.keys()) > 10


def test_another_reader_finds_every_lesson_person_and_caution(full_card: bytes) -> None:
    view = view_full_house()
    pages = [page.extract_text() for page in pypdf.PdfReader(BytesIO(full_card)).pages]
    letters = fold_text("".join(pages))
    for block in view.blocks:
        for turn in block.turns:
            assert fold_text(turn.title) in letters
            assert fold_text(f"{turn.person_id} {turn.name.split()[0]}") in letters
    for _, sentences in view.cautions:
        for sentence in sentences:
            assert fold_text(sentence) in letters
    for page in pages:
        assert "Coach only: people's data" in page.replace("\u2019", "'")
        assert fold_text(view.caution) in fold_text(page)


def test_a_card_carries_the_marks_of_pdf_ua(small_card: bytes) -> None:
    # ISO 14289-1:2014: 7.1 Marked and DisplayDocTitle, 7.2 Lang, 5 pdfuaid:part in the metadata,
    # 7.3 figures have Alt.
    with pikepdf.open(BytesIO(small_card)) as pdf:
        assert str(pdf.Root.Lang) == "en-GB"
        assert bool(pdf.Root.MarkInfo.Marked) is True
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle) is True
        with pdf.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == f"Class card: {SMALL}"
        figures = [
            each
            for each in pdf.objects
            if isinstance(each, pikepdf.Dictionary) and each.get("/S") == "/Figure"
        ]
        assert len(figures) > 10
        assert all(str(each.get("/Alt", "")) for each in figures)


def test_letter_is_taken_where_cards_are_cut_from_letter() -> None:
    sheets = {paper: choose_sheet(paper).id for paper in PAPERS}
    letter = {"letter", "half-letter", "index"}
    assert {paper for paper, sheet in sheets.items() if sheet == "letter"} == letter
    assert set(sheets.values()) == {"a4", "letter"}


def test_the_same_class_is_the_same_bytes(small_card: bytes) -> None:
    assert print_class_card(view_demo(SMALL), PAPERS["a4"]).pdf == small_card


def test_a_class_too_large_for_two_pages_is_refused_with_its_numbers() -> None:
    view = view_demo("2026-11-24-mixed")
    twice = replace(view, blocks=view.blocks * 2)
    with pytest.raises(BuilderError) as caught:
        print_class_card(twice, PAPERS["a4"])
    assert f"8 people in {2 * len(view.blocks)} blocks" in caught.value.message
    assert "plan fewer blocks" in caught.value.cure
    assert "gives two cards" in caught.value.cure


def test_a_name_that_the_typeface_lacks_is_refused() -> None:
    view = view_demo(SMALL)
    (first, _), *others = view.people
    named = replace(view, people=((first, "\u6f84"), *others))
    with pytest.raises(BuilderError) as caught:
        print_class_card(named, PAPERS["a4"])
    assert 'no "\u6f84"' in caught.value.message


@pytest.mark.parametrize("level", Level)
def test_every_level_says_all_that_a_card_must_say(level: Level) -> None:
    view = view_demo(SMALL)
    setting = find_smallest(level)
    face = make_face(view, setting)
    html = write_class_card(face, setting)
    pages = read_pdf(open_press().lay_out(html, read_class_style(PAPERS["letter"])).write())
    assert find_missing_words(face, join_readings(pages)) == ()
    assert find_missing_marks(face, tuple(page.text for page in pages)) == ()
    assert min(page.smallest_points for page in pages) >= 9


def test_each_lost_turn_and_caution_is_noticed(small_card: bytes) -> None:
    view = view_demo(SMALL)
    face = make_face(view, ClassSetting(10, Level.WIDE))
    text = join_readings(read_pdf(small_card))
    name = dict(view.people)["C6"]
    there = [*re.finditer(name.replace(" ", r"\s+"), text)]
    assert len(there) == 1 + len(view.blocks) + len(view.spare)  # one is among the close looks
    for found in there[: -len(view.spare)]:
        assert find_missing_words(face, text[: found.start()] + text[found.end() :]) != ()
    for _, sentences in view.cautions:
        for sentence in sentences:
            letters = fold_text(sentence)
            spoilt = fold_text(text).replace(letters, letters[1:])
            assert any("caution" in lost for lost in find_missing_words(face, spoilt))


def test_a_lost_caution_mark_is_noticed(small_card: bytes) -> None:
    face = make_face(view_demo(SMALL), ClassSetting(10, Level.WIDE))
    text = join_readings(read_pdf(small_card))
    assert text.count("\u25b22 ") > 0
    assert find_missing_words(face, text.replace("\u25b22 ", "", 1)) != ()


_GROUP = re.compile(r'<div class="group">(.*?)(?=<div class="group">|</section>)', re.DOTALL)


@pytest.mark.parametrize("level", Level)
def test_who_sits_instead_stands_apart_beside_a_sitting_figure(level: Level) -> None:
    view = view_demo(MIXED)
    setting = ClassSetting(9.0, level)
    html = write_class_card(make_face(view, setting), setting)
    groups = _GROUP.findall(html)
    sitting = [group for group in groups if "<strong>sitting instead</strong>" in group]
    turns = [turn for block in view.blocks for turn in block.turns if turn.instead]
    assert sum(group.count('class="person"') for group in sitting) == len(turns) > 0
    drawn = [title for group in sitting for title in re.findall("<title>(.*?)</title>", group)]
    assert len(drawn) == (len(sitting) if setting.figure_room else 0)
    assert {title.partition(",")[0] for title in drawn} <= {"Sitting on a chair"}
    lying = [group for group in groups if group not in sitting]
    assert any("<title>Lying" in group for group in lying) == bool(setting.figure_room)


def test_figures_that_sit_leave_a_small_class_its_roomy_card(small_card: bytes) -> None:
    """Stretched to the width of its column, a sitting figure was twice its height."""
    pages = [page.extract_text() for page in pypdf.PdfReader(BytesIO(small_card)).pages]
    assert "2 sets of 6 breaths" in " ".join("".join(pages).split())  # figures alone where dense
