"""Readings: the newest day, its first three trials, and the lesson in which they were read."""

from datetime import date

import pytest

from builder.planning.readings import (
    HOLD_MEASURE,
    BestHold,
    find_comfortable_hold,
    is_read_in,
    list_until,
)
from tests.planning.starter import TODAY, make_result, read_starter

SEPTEMBER, OCTOBER = date(2026, 9, 7), date(2026, 10, 5)


@pytest.mark.parametrize(
    ("trials", "best"),
    [
        ([], None),
        ([(SEPTEMBER, 9.0)], BestHold(9, SEPTEMBER)),
        ([(SEPTEMBER, 9.0), (SEPTEMBER, 11.5), (SEPTEMBER, 10.0)], BestHold(11.5, SEPTEMBER)),
        ([(SEPTEMBER, 20.0), (OCTOBER, 9.0)], BestHold(9, OCTOBER)),
        ([(OCTOBER, 9.0), (OCTOBER, 8.0), (OCTOBER, 7.0), (OCTOBER, 30.0)], BestHold(9, OCTOBER)),
        ([(SEPTEMBER, 9.0), (OCTOBER, 0.2)], None),
        ([(SEPTEMBER, 30.0), (OCTOBER, 0.0)], None),
        ([(SEPTEMBER, 30.0), (OCTOBER, 0.0), (OCTOBER, 6.0)], BestHold(6, OCTOBER)),
        ([(SEPTEMBER, "long")], None),
    ],
)
def test_a_hold_is_the_best_of_the_newest_days_first_three(
    trials: list[tuple[date, float | str]], best: BestHold | None
) -> None:
    rows = [make_result(HOLD_MEASURE, value, day=day) for day, value in trials]
    assert find_comfortable_hold(rows) == best


def test_other_people_and_later_days_do_not_count() -> None:
    own = make_result(HOLD_MEASURE, 9, day=OCTOBER)
    rows = [
        make_result(HOLD_MEASURE, 12, day=TODAY),
        make_result(HOLD_MEASURE, 30, day=SEPTEMBER, person="bo-2"),
        own,
        make_result(HOLD_MEASURE, 8, day=SEPTEMBER),
    ]
    assert [row.value for row in list_until(rows, "ro-1", OCTOBER)] == [8, 9]


def test_a_row_without_a_lesson_counts_where_no_other_lesson_records_it() -> None:
    course = read_starter()
    assert is_read_in(course, make_result(HOLD_MEASURE, 9), "comfortable-hold")
    assert is_read_in(course, make_result("rib-sides", "even"), "rib-sides-check")
    # Chest or belly is recorded sitting and lying: without the lesson nobody knows which.
    assert not is_read_in(course, make_result("first-mover", "chest"), "hands-check-sitting")
    assert not is_read_in(
        course, make_result("first-mover", "chest", "hands-check-lying"), "hands-check-sitting"
    )
