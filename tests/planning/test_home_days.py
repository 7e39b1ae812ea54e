"""Days of practice at home: a day between work, never too many, none on a day of class."""

from collections.abc import Iterable
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.planning.home_days import MOST_MINUTES, Span, Wish, share_out
from builder.sums.practice import Kind

MONDAY = date(2026, 11, 30)
DAY = timedelta(days=1)
MOST_WORK_DAYS = 3
"""Garber and others 2011, Medicine & Science in Sports & Exercise 43:1334: resistance and
neuromotor work on 2 to 3 days a week, with 48 hours between (position stand of the ACSM)."""


def on(*offsets: int) -> tuple[date, ...]:
    return tuple(MONDAY + timedelta(days=offset) for offset in offsets)


def quiet(name: str = "quiet", days: int = 3, minutes: int = 5) -> Wish:
    return Wish(name, Kind.STRETCH, days, minutes)


def work(name: str = "work", days: int = 3, minutes: int = 5) -> Wish:
    return Wish(name, Kind.CONTROL, days, minutes)


def test_work_without_classes_has_its_days_spread() -> None:
    assert share_out([work()], Span(MONDAY, 1), ())["work"] == on(0, 2, 4)


def test_work_keeps_off_a_class_and_the_days_beside_it() -> None:
    assert share_out([work()], Span(MONDAY, 1), on(2))["work"] == on(0, 4)


def test_quiet_practice_keeps_off_the_class_day_alone() -> None:
    assert share_out([quiet(days=7)], Span(MONDAY, 1), on(2))["quiet"] == on(0, 1, 3, 4, 5, 6)


def test_two_classes_a_week_leave_one_day_of_work() -> None:
    classes = on(1, 5, 8, 12, -2)
    assert share_out([work()], Span(MONDAY, 1), classes)["work"] == on(3)


def test_work_done_the_day_before_counts() -> None:
    assert share_out([work()], Span(MONDAY, 1), (), on(-1))["work"] == on(2, 4, 6)


def test_quiet_practice_joins_days_of_work() -> None:
    days = share_out([work(), quiet()], Span(MONDAY, 2), on(2, 9))
    assert set(days["work"]) <= set(days["quiet"])


def test_work_that_is_too_long_for_one_day_takes_turns() -> None:
    days = share_out([work("a", minutes=12), work("b", minutes=12)], Span(MONDAY, 2), ())
    assert set(days["a"]).isdisjoint(days["b"])
    assert abs(len(days["a"]) - len(days["b"])) <= 1


def test_a_lesson_longer_than_a_days_practice_has_no_days() -> None:
    assert share_out([quiet(minutes=MOST_MINUTES + 1)], Span(MONDAY, 4), ())["quiet"] == ()


KINDS = st.sampled_from(list(Kind))


@st.composite
def draw_wishes(draw: st.DrawFn) -> list[Wish]:
    return [
        Wish(f"lesson-{number}", draw(KINDS), draw(st.integers(2, 3)), draw(st.integers(1, 16)))
        for number in range(draw(st.integers(1, 5)))
    ]


def count_in_seven(days: Iterable[date], start: date) -> int:
    return sum(1 for day in days if start <= day < start + 7 * DAY)


@given(
    draw_wishes(),
    st.integers(1, 6),
    st.sets(st.integers(-3, 45), max_size=15),
    st.sets(st.integers(-7, -1), max_size=3),
)
def test_no_plan_ever_breaks_the_limits(
    wishes: list[Wish], weeks: int, classes: set[int], worked: set[int]
) -> None:
    span = Span(MONDAY, weeks)
    class_days, past = on(*sorted(classes)), on(*sorted(worked))
    days = share_out(wishes, span, class_days, past)
    by_name = {wish.lesson_id: wish for wish in wishes}
    own = {day for name, found in days.items() if by_name[name].is_work for day in found}
    every = sorted(own | set(class_days) | set(past))
    for earlier, later in pairwise(every):
        assert later - earlier > DAY or own.isdisjoint({earlier, later})
    for start in own:
        for back in range(7):
            assert count_in_seven(every, start - back * DAY) <= MOST_WORK_DAYS
    used = {day for found in days.values() for day in found}
    assert used.isdisjoint(class_days)
    assert all(span.first_day <= day <= span.last_day for day in used)
    for day in used:
        assert sum(by_name[name].minutes for name in days if day in days[name]) <= MOST_MINUTES
    for name, found in days.items():
        for week in span.list_weeks():
            assert sum(1 for day in found if day in week) <= by_name[name].days_a_week


@pytest.mark.parametrize("weeks", [1, 4, 12])
def test_a_span_has_whole_weeks(weeks: int) -> None:
    span = Span(MONDAY, weeks)
    assert (span.last_day - span.first_day).days == 7 * weeks - 1
    assert [len(week) for week in span.list_weeks()] == [7] * weeks
