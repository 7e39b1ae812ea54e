"""Symmetry: Markström and others 2022 (Sports Health 15:45), worse over better side x 100."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.symmetry import compare_sides
from builder.sums.validity import OutsideValidityError

readings = st.floats(0.01, 1000)


def test_the_published_example() -> None:
    assert compare_sides(45, 50).index_percent == pytest.approx(90.0)


@pytest.mark.parametrize(
    ("left", "right", "is_even", "weaker"),
    [
        (90.0, 100, True, None),
        (9.9, 11, True, None),
        (89.9, 100, False, "left"),
        (100, 89.9, False, "right"),
    ],
)
def test_even_begins_at_ninety(left: float, right: float, is_even: bool, weaker: str) -> None:
    symmetry = compare_sides(left, right)
    assert symmetry.is_even is is_even
    assert symmetry.weaker_side == weaker


@given(readings, readings)
def test_sides_may_be_changed_over(left: float, right: float) -> None:
    one, other = compare_sides(left, right), compare_sides(right, left)
    assert one.index_percent == other.index_percent
    assert 0 < one.index_percent <= 100


@given(readings, readings, st.floats(0.1, 10))
def test_the_unit_does_not_matter(left: float, right: float, factor: float) -> None:
    index = compare_sides(left * factor, right * factor).index_percent
    assert index == pytest.approx(compare_sides(left, right).index_percent)


@pytest.mark.parametrize("reading", [0, -1, float("nan"), float("inf")])
def test_no_reading_is_refused(reading: float) -> None:
    with pytest.raises(OutsideValidityError, match="outside"):
        compare_sides(reading, 10)


def test_what_is_ours_says_so() -> None:
    published, own = compare_sides(1, 2).citations
    assert "2022" in str(published)
    assert "ours" in str(own)
