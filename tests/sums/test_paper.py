"""Paper sizes against the standards that fix them."""

import math

import pytest

from builder.sums.paper import (
    PAPERS,
    choose_sheet,
    find_papers,
    find_usual_card,
    mm_to_points,
    pixels_to_mm,
    points_to_mm,
)

# ISO 216:2007, A series trimmed sizes in mm.
ISO_216 = {"a4": (210, 297), "a5": (148, 210), "a6": (105, 148)}
# ANSI/ASME Y14.1 size A is 8.5 x 11 in; half of it, and the 5 x 8 in index card, in inches.
INCHES = {"letter": (8.5, 11), "half-letter": (5.5, 8.5), "index": (5, 8)}


@pytest.mark.parametrize("name", ISO_216)
def test_a_sizes_are_those_of_iso_216(name: str) -> None:
    assert (PAPERS[name].width_mm, PAPERS[name].height_mm) == ISO_216[name]


@pytest.mark.parametrize("name", INCHES)
def test_inch_sizes_are_exact_in_points(name: str) -> None:
    width, height = INCHES[name]
    assert PAPERS[name].size_points == pytest.approx((width * 72, height * 72))


def test_each_card_is_cut_from_the_sheet_of_its_standard() -> None:
    """ISO 216 sizes from A4, inch sizes from US Letter, and sheets are themselves."""
    sheets = {name: choose_sheet(name).id for name in PAPERS}
    assert sheets == dict.fromkeys(ISO_216, "a4") | dict.fromkeys(INCHES, "letter")


def test_every_paper_comes_from_one_of_the_two_standards() -> None:
    assert set(PAPERS) == {*ISO_216, *INCHES}


def test_a_sizes_keep_the_ratio_of_the_square_root_of_two() -> None:
    # ISO 216: each side rounds down to whole millimetres, so within one of them.
    for name in ISO_216:
        paper = PAPERS[name]
        assert paper.height_mm == pytest.approx(paper.width_mm * math.sqrt(2), abs=1)


def test_body_type_never_falls_under_the_legible_floor() -> None:
    assert {name: paper.floor_points for name, paper in PAPERS.items()} == {
        "a6": 8,
        **dict.fromkeys(("a5", "a4", "half-letter", "letter", "index"), 9),
    }


def test_lengths_turn_into_each_other_by_the_inch() -> None:
    assert mm_to_points(25.4) == 72
    assert pixels_to_mm(96) == 25.4


@pytest.mark.parametrize(
    ("language", "paper"),
    [
        ("en-GB", "a5"),
        ("en-US", "half-letter"),
        ("es-MX", "half-letter"),
        ("zh-Hant-TW", "a5"),
        ("es", ""),
        ("sr-Latn", ""),
    ],
)
def test_cards_are_cut_from_the_sheets_of_the_country(language: str, paper: str) -> None:
    """US Letter or A4 by country, as Unicode CLDR has it (from memory)."""
    assert find_usual_card(language) == paper


def test_points_and_millimetres_are_an_inch_together() -> None:
    # A point is 1/72 inch (ISO 32000-2, 8.3.2.3), an inch 25.4 mm.
    assert points_to_mm(72) == pytest.approx(25.4)
    assert mm_to_points(points_to_mm(419.528)) == pytest.approx(419.528)


def test_a_paper_is_known_by_its_size_on_either_side() -> None:
    assert [paper.id for paper in find_papers(419.53, 297.64)] == ["a6"]
    assert [paper.id for paper in find_papers(612, 792)] == ["letter"]
    assert find_papers(300, 300) == ()
