"""Readings: which of a person's results answer a question or set a limit on a day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.records.result import Result
from builder.sums.breath_hold import take_best_seconds
from builder.sums.validity import OutsideValidityError

HOLD_MEASURE = "breath-hold-seconds"
"""The measure of a comfortable hold; courses that hold breaths have it under this id."""
MOST_TRIALS = 3
"""Trials of one day that are compared; later ones run long."""


@dataclass(frozen=True, slots=True)
class BestHold:
    """The longest of up to three trials of one day."""

    seconds: float
    day: date


def list_until(results: Iterable[Result], person_id: str, day: date) -> tuple[Result, ...]:
    """Return a person's results up to a day, oldest first; rows of one day stay in their order."""
    own = (row for row in results if row.person_id == person_id and row.day <= day)
    return tuple(sorted(own, key=lambda row: row.day))


def is_read_in(course: Course, row: Result, lesson_id: str) -> bool:
    """Tell whether a result was read in a lesson.

    A row without one was, where no other lesson of the course records its measure.
    """
    if row.lesson_id:
        return row.lesson_id == lesson_id
    readers = [
        lesson.id
        for lesson in course.lessons
        if any(measure.id == row.measure_id for measure in lesson.measures)
    ]
    return readers == [lesson_id]


def find_best_hold(rows: Iterable[Result]) -> BestHold | None:
    """Return the best of the first three sound trials of the newest day; None without one.

    Takes rows in order of their days. An older day never stands in: who could hold no breath on
    the newest one isn't measured by what they could before.
    """
    trials = [(row.day, row.value) for row in rows if not isinstance(row.value, str)]
    newest = trials[-1][0] if trials else None
    of_day = [seconds for day, seconds in trials if day == newest]
    sound = [seconds for seconds in of_day if _is_sound(seconds)][:MOST_TRIALS]
    return BestHold(take_best_seconds(sound), newest) if newest and sound else None


def find_comfortable_hold(rows: Iterable[Result]) -> BestHold | None:
    """Return a person's newest comfortable hold; None where none is on record."""
    return find_best_hold(row for row in rows if row.measure_id == HOLD_MEASURE)


def _is_sound(seconds: float) -> bool:
    """Tell whether a trial is one that the sums are made for."""
    try:
        take_best_seconds((seconds,))
    except OutsideValidityError:
        return False
    return True
