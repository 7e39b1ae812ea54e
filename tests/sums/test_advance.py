"""Advance: the rules by which people go on and back; all ours, with no published source."""

from datetime import date

import pytest

from builder.sums import advance
from builder.sums.advance import find_retest_day, is_known_after, is_stuck, was_away, was_too_much
from builder.sums.citation import Citation


@pytest.mark.parametrize(
    ("outcomes", "as_drill", "as_check"),
    [
        ((), False, False),
        (("ready",), False, True),
        (("ready", "ready"), True, True),
        (("ready", "again", "ready"), False, True),
        (("ready", "ready", "again"), False, False),
    ],
)
def test_drills_are_known_after_two_and_checks_after_one(
    outcomes: tuple[str, ...], *, as_drill: bool, as_check: bool
) -> None:
    assert is_known_after(outcomes, is_check=False) is as_drill
    assert is_known_after(outcomes, is_check=True) is as_check


def test_what_was_too_much_and_what_is_stuck_go_by_the_last_outcomes() -> None:
    assert was_too_much(("ready", "easier", "easier"))
    assert not was_too_much(("easier", "again", "easier"))
    assert is_stuck(("ready", "again", "again", "again"))
    assert not is_stuck(("again", "again"))


def test_six_weeks_are_forty_two_days() -> None:
    assert was_away(date(2026, 9, 1), date(2026, 10, 13))
    assert not was_away(date(2026, 9, 1), date(2026, 10, 12))


def test_measures_are_due_after_a_fortnight() -> None:
    assert find_retest_day(date(2026, 2, 20)) == date(2026, 3, 6)


def test_every_rule_says_that_it_is_ours() -> None:
    rules = [value for value in vars(advance).values() if isinstance(value, Citation)]
    assert len(rules) == 6
    assert all(rule.is_ours for rule in rules)
