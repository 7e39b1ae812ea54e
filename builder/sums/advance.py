"""Advance: when somebody knows a lesson, when it was too much, when to look again. All ours.

Outcomes are words of one lesson and one person in the order of their days, one for each day:
``ready``, ``again`` or ``easier``.
"""

from collections.abc import Sequence
from datetime import date, timedelta

from builder.sums.citation import ours
from builder.sums.ladder import READY_IN_A_ROW
from builder.sums.practice import READY

AGAIN = "again"
EASIER = "easier"
EASIER_IN_A_ROW = 2
AGAIN_IN_A_ROW = 3
AWAY_DAYS = 42
RETEST_DAYS = 14
READY_TWICE = ours(
    "known-twice-ready",
    "a lesson is known once it was ready twice in a row, on two days; a check after one",
)
WEAKER_OUTCOME = ours(
    "weaker-outcome", "of two outcomes of one lesson on one day the weaker one counts"
)
EASIER_TWICE = ours(
    "easier-twice",
    "after easier twice in a row a lesson is known no more, and its easier version comes first; "
    "what builds on it in its strand is shown once more",
)
SIX_WEEKS = ours(
    "six-weeks", "after six weeks away the highest known level of each strand is shown once more"
)
AGAIN_THREE_TIMES = ours("again-three-times", "again three times in a row: look at it together")
TWO_WEEKS = ours("two-weeks", "measured again two weeks after the last time (common practice)")


def order_outcomes() -> tuple[str, ...]:
    """Return the outcomes, weakest first (ours)."""
    return (EASIER, AGAIN, READY)


def is_known_after(outcomes: Sequence[str], *, is_check: bool) -> bool:
    """Tell whether the last outcomes show that a lesson is known: one for a check, else two."""
    return _ends_with(outcomes, READY, 1 if is_check else READY_IN_A_ROW)


def was_too_much(outcomes: Sequence[str]) -> bool:
    """Tell whether the last two outcomes asked for an easier version."""
    return _ends_with(outcomes, EASIER, EASIER_IN_A_ROW)


def is_stuck(outcomes: Sequence[str]) -> bool:
    """Tell whether the last three outcomes were ``again``."""
    return _ends_with(outcomes, AGAIN, AGAIN_IN_A_ROW)


def was_away(last_day: date, day: date) -> bool:
    """Tell whether six weeks or more went by from one day to another."""
    return day - last_day >= timedelta(days=AWAY_DAYS)


def find_retest_day(newest: date) -> date:
    """Return the day from which a measure is due again."""
    return newest + timedelta(days=RETEST_DAYS)


def _ends_with(outcomes: Sequence[str], outcome: str, times: int) -> bool:
    return list(outcomes[-times:]) == [outcome] * times
