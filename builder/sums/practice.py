"""Practice: how much and how often, over days and weeks."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from builder.sums.citation import Citation, ours
from builder.sums.ladder import READY_IN_A_ROW, TWICE_READY
from builder.sums.validity import OutsideValidityError, Validity

STRETCH_SECONDS = 60.0
"""All holds of one stretch on one day, together."""
GARBER = Citation(
    "garber-2011",
    "Garber and others",
    2011,
    "quantity and quality of exercise: 60 s a stretch, 2 days a week and more; resistance and "
    "neuromotor work on 2 to 3 days each",
    "Medicine & Science in Sports & Exercise 43:1334",
)
DAY_BETWEEN = Citation(
    "acsm-rest",
    "American College of Sports Medicine",
    2011,
    "48 hours between sessions of the same muscles",
    "position stand on exercise for healthy adults",
)
REST_STEP = ours("rest-step", "a rest shortens by at most 10 % at a time, down to 15 s")
READY = "ready"
"""The outcome of a drill that went as its lesson says."""
_DAYS_OF_WEEK = 7
_SHORTEST_REST_SECONDS = 15.0
_REST_STEP_SHARE = 0.10
_REST = Validity("rest", "s", 0, 600)
_HELD = Validity("hold", "s", 0, 3600)


class Kind(StrEnum):
    """What a drill trains, as the guidance divides it."""

    STRETCH = "stretch"
    CONTROL = "control"
    """Neuromotor work: balance, coordination, steadiness."""
    RESISTANCE = "resistance"


@dataclass(frozen=True, slots=True)
class Frequency:
    """Days a week, both ends included."""

    least_days: int
    most_days: int
    needs_day_between: bool
    citations: tuple[Citation, ...] = (GARBER, DAY_BETWEEN)


@dataclass(frozen=True, slots=True)
class Rest:
    """The rest between sets, in seconds."""

    seconds: float
    citations: tuple[Citation, ...] = (TWICE_READY, REST_STEP)


_FREQUENCIES = {
    Kind.STRETCH: Frequency(2, 7, needs_day_between=False),
    Kind.CONTROL: Frequency(2, 3, needs_day_between=True),
    Kind.RESISTANCE: Frequency(2, 3, needs_day_between=True),
}


def find_frequency(kind: Kind) -> Frequency:
    """Return on how many days a week a kind of work is done. Source: Garber 2011."""
    return _FREQUENCIES[kind]


def spread_days(days_a_week: int, kind: Kind) -> tuple[int, ...]:
    """Return weekdays from 0 on, spread as evenly as whole days allow, the first on day 0.

    Raises `OutsideValidityError` for a number of days that the kind of work doesn't allow.
    """
    frequency = find_frequency(kind)
    if not frequency.least_days <= days_a_week <= frequency.most_days:
        raise OutsideValidityError(
            f"{days_a_week} days a week of {kind} is outside {frequency.least_days} to "
            f"{frequency.most_days}"
        )
    return tuple(index * _DAYS_OF_WEEK // days_a_week for index in range(days_a_week))


def find_missing_stretch_seconds(held_seconds: float) -> float:
    """Return what a stretch held from 0 to 3,600 s lacks of its 60 s on a day.

    Raises `OutsideValidityError` for others. Source: Garber 2011.
    """
    return max(0.0, STRETCH_SECONDS - _HELD.check(held_seconds))


def find_next_rest(rest_seconds: float, outcomes: Sequence[str]) -> Rest:
    """Return the next rest after outcomes in the order of time, from a rest of 0 to 600 s.

    It shortens only after ``ready`` twice in a row, by at most 10 %, to whole seconds, and never
    under 15 s (ours).
    """
    rest = _REST.check(rest_seconds)
    is_ready = list(outcomes)[-READY_IN_A_ROW:] == [READY] * READY_IN_A_ROW
    if not is_ready or rest <= _SHORTEST_REST_SECONDS:
        return Rest(rest)
    return Rest(max(_SHORTEST_REST_SECONDS, float(math.ceil(rest * (1 - _REST_STEP_SHARE)))))
