"""Sheets to cut, read back by where their words lie."""

import pypdfium2
import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.sheets import print_sheets
from builder.publishing.proof.read_back import read_pdf
from builder.sums.paper import PAPERS, Paper
from tests.publishing.conftest import make_face


def lay_on_sheets(cards: list[bytes], paper: Paper) -> bytes:
    return print_sheets(cards, paper, "Cards to cut", "en-GB")


def find_words(content: bytes, page: int, words: str) -> tuple[float, float]:
    """Return where a text begins, in points from the lower left corner."""
    text = pypdfium2.PdfDocument(content)[page].get_textpage()
    index, _ = text.search(words).get_next()
    left, bottom, _, _ = text.get_charbox(index)
    return left, bottom


def test_four_a6_cards_share_an_upright_a4_sheet(hold_card: CardRecord) -> None:
    sheets = read_pdf(lay_on_sheets([hold_card.pdf] * 5, PAPERS["a6"]))
    assert len(sheets) == 2
    assert [sheet.text.count("Short hold") for sheet in sheets] == [4, 1]
    # ISO 216 A4 in points of 1/72 inch.
    assert (sheets[0].width_points, sheets[0].height_points) == pytest.approx(
        (595.276, 841.890), abs=0.01
    )
    assert not sheets[0].has_words_outside


def test_backs_follow_their_fronts(small_course: Course, coach_card: CardRecord) -> None:
    sheets = read_pdf(lay_on_sheets([coach_card.pdf, coach_card.pdf], PAPERS["a5"]))
    assert ["Steps" in sheet.text for sheet in sheets] == [True, False]
    assert ["Coach notes" in sheet.text for sheet in sheets] == [False, True]
    assert not any(sheet.has_words_outside for sheet in sheets)


def test_the_back_of_the_left_card_lies_on_the_right(small_course: Course) -> None:
    lessons = ("hand-on-belly", "short-hold")
    cards = [
        print_card(make_face(small_course, name, "a6", Audience.COACH)).pdf for name in lessons
    ]
    sheets = lay_on_sheets(cards, PAPERS["a6"])
    width = 595.276
    for number, name in enumerate(lessons):
        title = small_course.by_id[name].title
        (x, y), (back_x, back_y) = find_words(sheets, 0, title), find_words(sheets, 1, title)
        assert (x < width / 2) == (number == 0)
        assert (back_x < width / 2) == (number == 1)
        assert abs(y - back_y) < 20


def test_sheets_are_the_same_bytes_each_time(hold_card: CardRecord) -> None:
    assert lay_on_sheets([hold_card.pdf], PAPERS["a6"]) == lay_on_sheets(
        [hold_card.pdf], PAPERS["a6"]
    )
