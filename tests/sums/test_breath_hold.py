"""Breath-holds: retest scatter of 6 ± 4 % (Trembach and Zabolotskikh 2017)."""

import pytest

from builder.sums.breath_hold import (
    compare_holds,
    find_most_at_home_seconds,
    take_best_seconds,
)
from builder.sums.validity import OutsideValidityError


def test_the_best_of_three_counts() -> None:
    assert take_best_seconds([21.0, 26.5, 24.0]) == 26.5
    assert take_best_seconds([21.0]) == 21.0


@pytest.mark.parametrize("trials", [[], [20.0] * 4])
def test_no_trial_and_a_fourth_are_refused(trials: list[float]) -> None:
    with pytest.raises(ValueError, match="best of one to three"):
        take_best_seconds(trials)


@pytest.mark.parametrize(
    ("later", "is_change"), [(23.9, False), (24.0, True), (16.1, False), (16.0, True)]
)
def test_a_change_begins_at_a_fifth(later: float, is_change: bool) -> None:
    assert compare_holds(20.0, later).is_change is is_change


@pytest.mark.parametrize(("later", "percent"), [(25.0, 25), (15.0, -25), (20.0, 0)])
def test_a_change_is_told_in_percent_of_the_earlier_hold(later: float, percent: float) -> None:
    assert compare_holds(20.0, later).change_percent == pytest.approx(percent)


def test_the_scatter_lies_far_above_the_published_variation() -> None:
    # 6 + 2 x 4 = 14 %: two people in a hundred would show that by chance alone.
    assert not compare_holds(20.0, 20.0 * 1.14).is_change


def test_half_of_it_is_the_most_at_home() -> None:
    assert find_most_at_home_seconds(16) == 8


def test_a_hold_that_nobody_should_try_is_refused() -> None:
    with pytest.raises(OutsideValidityError, match=r"outside 0\.5 to 300 s"):
        find_most_at_home_seconds(301)
