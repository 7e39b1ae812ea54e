"""Weaker side: how both sides compare on their newest day, and what that changes in a lesson.

It names no cause. Where more is better sides are compared by their index; gaps by their
difference, because a gap may be 0 (ours). Words tell which side moves first: the other one comes
second, and is the weaker one (ours).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from builder.course.course import Course
from builder.course.dose import Dose, Sides
from builder.course.lesson import Lesson
from builder.course.vocabulary import Better, Measure
from builder.planning.measured_days import MeasuredDay, Series, find_series, is_gap, take_best
from builder.records.result import Result, Side
from builder.sums.citation import Citation, ours
from builder.sums.gap import compare_gap_sides
from builder.sums.symmetry import WEAKER_FIRST, compare_sides
from builder.sums.validity import OutsideValidityError

EXTRA_SETS = 1
"""What the weaker side gets more (ours)."""
SECOND_IS_WEAKER = ours("second-is-weaker", "the side that comes second is the weaker one")
_FIRST_MOVERS: Mapping[str, Side | None] = MappingProxyType(
    {"left first": Side.RIGHT, "right first": Side.LEFT, "even": None}
)
"""What a word says of the weaker side."""


@dataclass(frozen=True, slots=True)
class SideComparison:
    """Both sides of one measure on one day."""

    measure: Measure
    lesson_id: str
    day: date
    weaker: Side | None
    """None where the sides are even, or alike within their scatter."""
    left: float | None = None
    """None where the measure is read in words."""
    right: float | None = None
    index_percent: float | None = None
    """Where more is better."""
    difference: float | None = None
    """Where less is better, in the measure's unit."""
    word: str = ""
    citations: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class SidePlan:
    """How a lesson that is done on each side is shared out."""

    first: Side
    weaker_sets: int
    stronger_sets: int


def compare_person_sides(course: Course, results: Iterable[Result]) -> tuple[SideComparison, ...]:
    """Return the newest comparison of each measure and lesson that was read on both sides.

    Takes one person's results in order of their days. A day on which only one side was read is
    passed over, because readings of two days aren't alike.
    """
    series = find_series(course, results)
    found = [_compare_words(each) for each in series]
    right = {(each.measure.id, each.lesson_id): each for each in series if each.side is Side.RIGHT}
    for each in series:
        other = right.get((each.measure.id, each.lesson_id))
        if each.side is Side.LEFT and other and _is_comparable(each.measure):
            found.append(_compare_series(each, other))
    order = list(course.vocabulary.measures)
    there = [each for each in found if each]
    return tuple(sorted(there, key=lambda each: order.index(each.measure.id)))


def find_weaker_side(
    course: Course, lesson: Lesson, comparisons: Iterable[SideComparison]
) -> Side | None:
    """Return the weaker side that counts for a lesson.

    What was read in it comes first, then in its strand; else all must say the same (ours).
    """
    every = list(comparisons)
    own = [each for each in every if each.lesson_id == lesson.id]
    near = [each for each in every if _is_near(course, lesson, each)]
    weaker = {each.weaker for each in own or near or every if each.weaker}
    return weaker.pop() if len(weaker) == 1 else None


def plan_sides(lesson: Lesson, weaker: Side | None) -> SidePlan | None:
    """Return how sets are shared out in a lesson done on each side; None where sides are even."""
    dose = lesson.drill.dose
    if weaker is None or not isinstance(dose, Dose) or dose.sides is not Sides.EACH:
        return None
    return SidePlan(weaker, dose.sets + EXTRA_SETS, dose.sets)


def _is_near(course: Course, lesson: Lesson, comparison: SideComparison) -> bool:
    read_in = course.by_id.get(comparison.lesson_id)
    return read_in is not None and read_in.strand.id == lesson.strand.id


def _is_comparable(measure: Measure) -> bool:
    """Tell whether a rule says how sides compare: none does where less is better, but for gaps."""
    return measure.better is Better.MORE or is_gap(measure)


def _compare_words(series: Series) -> SideComparison | None:
    newest = series.days[-1]
    if newest.word not in _FIRST_MOVERS:
        return None
    return SideComparison(
        series.measure,
        series.lesson_id,
        newest.day,
        _FIRST_MOVERS[newest.word],
        word=newest.word,
        citations=(SECOND_IS_WEAKER, WEAKER_FIRST),
    )


def _compare_series(left: Series, right: Series) -> SideComparison | None:
    others = {day.day: day for day in right.days}
    both = [(day, others[day.day]) for day in left.days if day.day in others]
    if not both:
        return None
    try:
        return _compare_day(left, *both[-1])
    except OutsideValidityError:
        return None


def _compare_day(series: Series, left: MeasuredDay, right: MeasuredDay) -> SideComparison:
    measure = series.measure
    trials = min(len(left.numbers), len(right.numbers))
    low, high = (take_best(day.numbers[:trials], measure.better) for day in (left, right))
    if measure.better is Better.LESS:
        gap = compare_gap_sides(low, high)
        weaker, index, difference = gap.weaker_side, None, gap.difference_cm
        citations: tuple[Citation, ...] = (*gap.citations, WEAKER_FIRST)
    else:
        even = compare_sides(low, high)
        weaker, index, difference = even.weaker_side, even.index_percent, None
        citations = even.citations
    return SideComparison(
        measure,
        series.lesson_id,
        left.day,
        Side(weaker) if weaker else None,
        low,
        high,
        index,
        difference,
        citations=citations,
    )
