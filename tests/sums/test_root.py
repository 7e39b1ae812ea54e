"""Roots: the nearest nought of a function, or the least miss."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.root import find_root


@given(st.floats(-40, 40))
def test_the_nought_of_a_line_is_found(nought: float) -> None:
    assert find_root(lambda x: 0.5 * (x - nought), 0, -45, 45) == pytest.approx(nought, abs=1e-4)


@pytest.mark.parametrize(("now", "nearest"), [(-100, -180), (20, 0), (170, 180), (350, 360)])
def test_of_several_noughts_the_nearest_counts(now: float, nearest: float) -> None:
    root = find_root(lambda x: math.sin(math.radians(x)), now, -200, 400)
    assert root == pytest.approx(nearest, abs=1e-3)


def test_where_nothing_is_nought_the_least_miss_counts() -> None:
    assert find_root(lambda x: 2 - x, 0, -1, 1) == pytest.approx(1)
    assert find_root(lambda x: x * x + 1, 5, -9, 9) == pytest.approx(0)
    assert find_root(lambda x: x * x / 100 + 0.1, 5, -9, 9) == pytest.approx(0)


def test_a_nought_at_the_end_of_the_search_is_found() -> None:
    assert find_root(lambda x: x - 9, 0, -9, 9) == pytest.approx(9)


def test_spots_farther_than_the_nearest_nought_are_not_looked_at() -> None:
    looked: list[float] = []

    def miss(spot: float) -> float:
        looked.append(spot)
        return spot - 11

    assert find_root(miss, 10, -80, 100) == pytest.approx(11)
    assert max(looked) - min(looked) <= 20  # two of the search's own steps
