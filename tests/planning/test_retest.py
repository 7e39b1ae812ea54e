"""Retest: two weeks after the newest reading (common practice), and first checks never done."""

import pytest

from builder.planning.retest import Retest, find_retests
from tests.planning.rows import on
from tests.planning.starter import make_result, read_starter

CHECKS = {"hands-check-sitting", "hands-check-lying", "comfortable-hold", "rib-sides-check"}


def find(day: int, *barred: str) -> dict[str, Retest]:
    rows = [
        make_result("breath-hold-seconds", 10, day=on(0)),
        make_result("steady-breaths", 6, "belly-breath", on(0)),
        make_result("steady-breaths", 6, "tail-tuck", on(2)),
    ]
    found = find_retests(read_starter(), rows, on(day), barred.__contains__)
    return {each.lesson_id: each for each in found}


@pytest.mark.parametrize(
    ("day", "is_due", "is_overdue"), [(13, False, False), (14, True, False), (15, True, True)]
)
def test_a_measure_is_due_after_two_weeks(day: int, *, is_due: bool, is_overdue: bool) -> None:
    hold = find(day)["comfortable-hold"]
    assert (hold.newest, hold.due) == (on(0), on(14))
    assert (hold.is_due, hold.is_overdue) == (is_due, is_overdue)


def test_checks_never_done_are_due_today() -> None:
    found = find(5)
    assert set(found) == {*CHECKS, "tail-tuck"}
    assert (found["rib-sides-check"].newest, found["rib-sides-check"].due) == (None, on(5))
    assert found["tail-tuck"].due == on(16)


def test_barred_lessons_are_not_asked_for() -> None:
    assert "comfortable-hold" not in find(30, "comfortable-hold")


def test_later_readings_do_not_count() -> None:
    rows = [make_result("breath-hold-seconds", 10, day=on(9))]
    found = find_retests(read_starter(), rows, on(3), lambda _: False)
    assert all(each.newest is None for each in found)
