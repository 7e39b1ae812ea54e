"""Gap: a change is more than two looks of one day differ; ours, with no published source."""

import pytest

from builder.sums.gap import ONE_LOOK, compare_gap_sides, compare_gaps, compare_single_gaps
from builder.sums.validity import OutsideValidityError


@pytest.mark.parametrize(
    ("looks", "later", "change", "scatter", "is_change"),
    [
        ((12, 12), 11, -1, 1, False),  # a ruler in whole centimetres
        ((12, 12), 10, -2, 1, True),
        ((12, 15), 9, -3, 3, False),
        ((12, 15), 8, -4, 3, True),
        ((15, 12), 16, 4, 3, True),
        ((0, 0), 0, 0, 1, False),
    ],
)
def test_a_change_is_more_than_two_looks_differ(
    looks: tuple[float, float], later: float, change: float, scatter: float, *, is_change: bool
) -> None:
    compared = compare_gaps(*looks, later)
    assert (compared.change_cm, compared.is_change) == (change, is_change)
    assert compared.scatter_cm == scatter
    assert all(citation.is_ours for citation in compared.citations)


@pytest.mark.parametrize("gaps", [(-1, 5, 5), (5, 101, 5), (5, 5, float("nan"))])
def test_what_no_ruler_shows_is_refused(gaps: tuple[float, float, float]) -> None:
    with pytest.raises(OutsideValidityError, match="is outside 0 to 100 cm"):
        compare_gaps(*gaps)


@pytest.mark.parametrize(
    ("earlier", "later", "is_change"), [(12, 10, False), (12, 9, True), (0, 2, False), (0, 3, True)]
)
def test_single_looks_change_by_over_two_centimetres(
    earlier: float, later: float, *, is_change: bool
) -> None:
    compared = compare_single_gaps(earlier, later)
    assert (compared.change_cm, compared.is_change) == (later - earlier, is_change)
    assert (compared.scatter_cm, compared.citations) == (2, (ONE_LOOK,))


@pytest.mark.parametrize(
    ("left", "right", "weaker"),
    [(0, 0, None), (0, 2, None), (0, 3, "right"), (15, 12, "left"), (12, 14, None)],
)
def test_the_weaker_side_has_the_larger_gap(left: float, right: float, weaker: str | None) -> None:
    sides = compare_gap_sides(left, right)
    assert (sides.weaker_side, sides.difference_cm) == (weaker, abs(left - right))
