"""Cards on sheets: how many, where, and whether backs meet fronts."""

from dataclasses import replace

import pytest

from builder.sums.imposition import Cell, Imposition, impose
from builder.sums.paper import PAPERS

SHEETS = {"a6": "a4", "a5": "a4", "half-letter": "letter", "index": "letter"}


def plan(card: str) -> Imposition:
    return impose(PAPERS[card], PAPERS[SHEETS[card]])


@pytest.mark.parametrize(
    ("card", "count"),
    # ISO 216: each A size is the next larger one halved, so A4 holds 2 A5 or 4 A6.
    [("a6", 4), ("a5", 2), ("half-letter", 2), ("index", 2)],
)
def test_a_sheet_holds_as_many_as_halving_gives(card: str, count: int) -> None:
    assert plan(card).count == count


@pytest.mark.parametrize(
    ("width", "height", "columns", "rows", "is_turned"),
    [
        (105, 148, 2, 2, False),
        (148, 210, 1, 2, True),
        (30, 50, 4, 9, True),  # 36; upright only 7 times 5
        (50, 60, 4, 4, False),  # 16; turned only 3 times 5
        (30, 90, 7, 3, False),  # 21; turned only 2 times 9
        (50, 50, 4, 5, False),
    ],
)
def test_cards_lie_on_their_side_only_where_more_of_them_fit(
    width: float, height: float, columns: int, rows: int, *, is_turned: bool
) -> None:
    card = replace(PAPERS["a6"], width_mm=width, height_mm=height)
    laid = impose(card, PAPERS["a4"])
    assert (laid.columns, laid.rows, laid.is_turned) == (columns, rows, is_turned)
    cell = (height, width) if is_turned else (width, height)
    assert (laid.cell_width_mm, laid.cell_height_mm) == cell


@pytest.mark.parametrize("card", SHEETS)
def test_cards_stay_on_the_sheet_and_do_not_overlap(card: str) -> None:
    laid = plan(card)
    boxes = [
        (
            cell.left_mm,
            cell.bottom_mm,
            cell.left_mm + laid.cell_width_mm,
            cell.bottom_mm + laid.cell_height_mm,
        )
        for cell in laid.fronts
    ]
    for left, bottom, right, top in boxes:
        assert min(left, bottom) >= -0.001
        assert right <= laid.sheet.width_mm + 0.001
        assert top <= laid.sheet.height_mm + 0.001
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            apart_x = one[2] <= other[0] + 0.001 or other[2] <= one[0] + 0.001
            apart_y = one[3] <= other[1] + 0.001 or other[3] <= one[1] + 0.001
            assert apart_x or apart_y


@pytest.mark.parametrize("card", SHEETS)
def test_a_back_lies_behind_its_front_when_flipped_on_the_long_edge(card: str) -> None:
    laid = plan(card)
    for front, back in zip(laid.fronts, laid.backs, strict=True):
        seen_through = laid.sheet.width_mm - back.left_mm - laid.cell_width_mm
        assert seen_through == pytest.approx(front.left_mm)
        assert back.bottom_mm == front.bottom_mm


def test_cards_come_in_reading_order() -> None:
    # A4 is 297 mm high and two A6 296 mm, so half a millimetre is left at top and bottom.
    assert plan("a6").fronts == (
        *(Cell(0, 148.5), Cell(105, 148.5)),
        *(Cell(0, 0.5), Cell(105, 0.5)),
    )


def test_cuts_run_where_cards_meet_and_around_cards_that_leave_a_border() -> None:
    assert plan("a5").cuts_mm == ((), (0.5, 148.5, 296.5))
    uprights, levels = plan("index").cuts_mm
    assert uprights == pytest.approx((6.35, 209.55))
    assert levels == pytest.approx((12.7, 139.7, 266.7))
