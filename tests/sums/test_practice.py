"""Practice against the position stand of Garber and others, 2011."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.practice import (
    Kind,
    find_frequency,
    find_missing_stretch_seconds,
    find_next_rest,
    spread_days,
)
from builder.sums.validity import OutsideValidityError


@pytest.mark.parametrize(("holds", "seconds"), [(2, 30), (3, 20), (4, 15), (6, 10)])
def test_the_position_stands_ways_to_sixty_seconds_lack_nothing(holds: int, seconds: int) -> None:
    assert find_missing_stretch_seconds(holds * seconds) == 0
    assert find_missing_stretch_seconds(holds * seconds - 1) == 1


def test_no_stretch_lasts_less_than_nothing_or_over_an_hour() -> None:
    assert (find_missing_stretch_seconds(0), find_missing_stretch_seconds(3600)) == (60, 0)
    for seconds in (-1, 3601):
        with pytest.raises(OutsideValidityError, match=f"hold {seconds} s is outside 0 to 3600 s"):
            find_missing_stretch_seconds(seconds)


@pytest.mark.parametrize(
    ("kind", "least", "most"), [(Kind.STRETCH, 2, 7), (Kind.CONTROL, 2, 3), (Kind.RESISTANCE, 2, 3)]
)
def test_days_a_week_are_the_position_stands(kind: Kind, least: int, most: int) -> None:
    frequency = find_frequency(kind)
    assert (frequency.least_days, frequency.most_days) == (least, most)
    for days in (least - 1, most + 1):
        with pytest.raises(OutsideValidityError, match=f"{days} days a week of {kind} is outside"):
            spread_days(days, kind)


@pytest.mark.parametrize(("days", "weekdays"), [(2, (0, 3)), (3, (0, 2, 4))])
def test_work_has_a_day_between(days: int, weekdays: tuple[int, ...]) -> None:
    assert spread_days(days, Kind.RESISTANCE) == weekdays
    around = [*weekdays, weekdays[0] + 7]
    gaps = [later - day for day, later in pairwise(around)]
    assert min(gaps) * 24 >= 48


@pytest.mark.parametrize(
    ("rest", "outcomes", "following"),
    [
        (60, ["ready", "ready"], 54),
        (60, ["again", "ready", "ready"], 54),
        (60, ["ready"], 60),
        (60, [], 60),
        (60, ["ready", "again"], 60),
        (60, ["ready", "easier", "ready"], 60),
        (16, ["ready", "ready"], 15),
        (15, ["ready", "ready"], 15),
        (0, ["ready", "ready"], 0),
    ],
)
def test_rests_shorten_only_after_ready_twice_in_a_row(
    rest: float, outcomes: list[str], following: float
) -> None:
    assert find_next_rest(rest, outcomes).seconds == following


@given(st.floats(0, 600), st.lists(st.sampled_from(["ready", "again", "easier"])))
def test_a_rest_never_shrinks_by_more_than_a_tenth(rest: float, outcomes: list[str]) -> None:
    following = find_next_rest(rest, outcomes)
    assert 0.9 * rest - 1e-6 <= following.seconds <= rest
    assert [citation.is_ours for citation in following.citations] == [True, True]
