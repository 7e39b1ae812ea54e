"""Trends: what changed in a measure since the first time and since the last, beyond its scatter.

Like is compared with like: the best of the first trials of one day with the best of as many of
the other. A measure for which no rule says what would be a change only has its numbers said.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from itertools import combinations
from types import MappingProxyType

from builder.course.course import Course
from builder.course.vocabulary import Better, Measure
from builder.planning.measured_days import MeasuredDay, Series, find_series, is_gap, take_best
from builder.planning.readings import HOLD_MEASURE, MOST_TRIALS
from builder.records.result import Result, Side
from builder.sums.breath_hold import SCATTER_SHARE, compare_holds
from builder.sums.chest_expansion import SCATTER_CM, compare_expansions
from builder.sums.citation import Citation
from builder.sums.gap import compare_gaps, compare_single_gaps
from builder.sums.validity import OutsideValidityError

EXPANSION_MEASURE = "chest-expansion-cm"
"""The measure of chest expansion; courses that record it have it under this id."""
_LOOKS = 2
"""How many looks at a gap on one day tell its scatter."""


class Change(StrEnum):
    """How a number compares with an earlier one."""

    GREW = "grew"
    SHRANK = "shrank"
    WITHIN_SCATTER = "within-scatter"
    UNJUDGED = "unjudged"
    """No rule says what would be a change."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two days of one series, like compared with like."""

    change: Change
    earlier_day: date
    earlier: float
    """The best of as many trials as are compared."""
    later: float
    trials: int
    """How many trials of each day are compared."""
    scatter_share: float | None = None
    """A part of the earlier number; a change is that much or more."""
    scatter_cm: float | None = None
    citations: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """What stands for one day."""

    day: date
    number: float | None
    """The best of the first three trials; None where the measure is read in words."""
    word: str
    trials: int


@dataclass(frozen=True, slots=True)
class Trend:
    """One series, from its first reading to its newest."""

    measure: Measure
    lesson_id: str
    side: Side | None
    readings: tuple[Reading, ...]
    """One a day, oldest first."""
    from_first: Comparison | None
    """None where there is one reading, or words."""
    from_previous: Comparison | None
    asks_for_clinician: bool = False
    """True where chest expansion was 2.5 cm or less on two dates; no finding about anybody."""

    @property
    def baseline(self) -> Reading:
        """Return the first reading."""
        return self.readings[0]

    @property
    def newest(self) -> Reading:
        """Return the newest reading."""
        return self.readings[-1]

    @property
    def best(self) -> Reading | None:
        """Return the first of the best readings; None where nothing is better."""
        if self.measure.better is Better.NONE:
            return None
        sign = 1 if self.measure.better is Better.MORE else -1
        numbered = [each for each in self.readings if each.number is not None]
        return max(numbered, key=lambda each: sign * (each.number or 0), default=None)


def find_trends(course: Course, results: Iterable[Result]) -> tuple[Trend, ...]:
    """Return the trend of each series of one person, in the order of the course's measures.

    Takes that person's results in order of their days.
    """
    return tuple(_find_trend(series) for series in find_series(course, results))


def _find_trend(series: Series) -> Trend:
    measure, days = series.measure, series.days
    has_two = len(days) > 1 and bool(days[0].numbers)
    return Trend(
        measure,
        series.lesson_id,
        series.side,
        tuple(_read_day(day, measure.better) for day in days),
        _compare(measure, days[0], days[-1]) if has_two else None,
        _compare(measure, days[-2], days[-1]) if has_two else None,
        measure.id == EXPANSION_MEASURE and _is_low_twice(days),
    )


def _read_day(day: MeasuredDay, better: Better) -> Reading:
    number = take_best(day.numbers, better) if day.numbers else None
    return Reading(day.day, number, day.word, min(len(day.numbers), MOST_TRIALS))


def _compare(measure: Measure, earlier: MeasuredDay, later: MeasuredDay) -> Comparison:
    judge = _compare_gap_days if is_gap(measure) else _JUDGES.get(measure.id)
    try:
        if judge:
            return judge(measure, earlier, later)
    except OutsideValidityError:
        pass  # the numbers are said, and nothing is made of them
    return _pair(measure, earlier, later)


def _compare_hold_days(measure: Measure, earlier: MeasuredDay, later: MeasuredDay) -> Comparison:
    pair = _pair(measure, earlier, later)
    found = compare_holds(pair.earlier, pair.later)
    change = _name_change(found.change_percent, is_change=found.is_change)
    return replace(pair, change=change, scatter_share=SCATTER_SHARE, citations=found.citations)


def _compare_expansion_days(
    measure: Measure, earlier: MeasuredDay, later: MeasuredDay
) -> Comparison:
    pair = _pair(measure, earlier, later)
    found = compare_expansions(pair.earlier, pair.later)
    change = _name_change(found.change_cm, is_change=found.is_change)
    return replace(pair, change=change, scatter_cm=SCATTER_CM, citations=found.citations)


def _compare_gap_days(measure: Measure, earlier: MeasuredDay, later: MeasuredDay) -> Comparison:
    """Take two looks of each day where there are two, else the first of each."""
    pair = _pair(measure, earlier, later, most=_LOOKS)
    if pair.trials == _LOOKS:
        first, second = earlier.numbers[:_LOOKS]
        found = compare_gaps(first, second, pair.later)
    else:
        found = compare_single_gaps(pair.earlier, pair.later)
    change = _name_change(found.change_cm, is_change=found.is_change)
    return replace(pair, change=change, scatter_cm=found.scatter_cm, citations=found.citations)


_JUDGES: Mapping[str, Callable[[Measure, MeasuredDay, MeasuredDay], Comparison]] = MappingProxyType(
    {HOLD_MEASURE: _compare_hold_days, EXPANSION_MEASURE: _compare_expansion_days}
)


def _pair(
    measure: Measure, earlier: MeasuredDay, later: MeasuredDay, most: int = MOST_TRIALS
) -> Comparison:
    trials = min(len(earlier.numbers), len(later.numbers), most)
    first, last = (take_best(day.numbers, measure.better, trials) for day in (earlier, later))
    return Comparison(Change.UNJUDGED, earlier.day, first, last, trials)


def _name_change(amount: float, *, is_change: bool) -> Change:
    if not is_change:
        return Change.WITHIN_SCATTER
    return Change.GREW if amount > 0 else Change.SHRANK


def _is_low_twice(days: tuple[MeasuredDay, ...]) -> bool:
    best = [take_best(day.numbers, Better.MORE) for day in days if day.numbers]
    return any(_are_low(first, second) for first, second in combinations(best, 2))


def _are_low(first: float, second: float) -> bool:
    try:
        return compare_expansions(first, second).asks_for_clinician
    except OutsideValidityError:
        return False
