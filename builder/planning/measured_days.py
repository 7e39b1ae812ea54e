"""Measured days: a person's readings of one measure, lesson and side, day by day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.course.measure_words import list_words
from builder.course.vocabulary import Better, Measure
from builder.planning.readings import MOST_TRIALS
from builder.records.result import Result, Side

_SIDES = (None, Side.LEFT, Side.RIGHT)


@dataclass(frozen=True, slots=True)
class MeasuredDay:
    """The readings of one day, in the order in which they were taken."""

    day: date
    numbers: tuple[float, ...] = ()
    word: str = ""
    """The last word of the day, where the measure is read in words."""


@dataclass(frozen=True, slots=True)
class Series:
    """The days of one measure, in one lesson and on one side, oldest first."""

    measure: Measure
    lesson_id: str
    """Empty where nobody wrote it and several lessons record the measure."""
    side: Side | None
    days: tuple[MeasuredDay, ...]


def find_series(course: Course, results: Iterable[Result]) -> tuple[Series, ...]:
    """Return a person's series by measure, lesson and side; what is no reading is left out.

    Takes that person's results in order of their days. Readings from two lessons are never in one
    series, because they aren't alike.
    """
    rows: dict[tuple[str, str, Side | None], list[Result]] = {}
    for row in results:
        if row.measure_id in course.vocabulary.measures:
            key = (row.measure_id, find_lesson_id(course, row), row.side)
            rows.setdefault(key, []).append(row)
    order = [*course.vocabulary.measures], ["", *course.teaching_order]
    series = (
        Series(course.vocabulary.measures[key[0]], key[1], key[2], _group(course, key[0], found))
        for key, found in rows.items()
    )
    return tuple(
        sorted(
            (each for each in series if each.days),
            key=lambda each: (
                order[0].index(each.measure.id),
                order[1].index(each.lesson_id),
                _SIDES.index(each.side),
            ),
        )
    )


def find_lesson_id(course: Course, row: Result) -> str:
    """Return the lesson of a reading: the one written, else the only one that records it."""
    if row.lesson_id:
        return row.lesson_id if row.lesson_id in course.by_id else ""
    readers = list_readers(course, row.measure_id)
    return readers[0] if len(readers) == 1 else ""


def list_readers(course: Course, measure_id: str) -> tuple[str, ...]:
    """Return the ids of the lessons that record a measure, in teaching order."""
    return tuple(
        lesson.id
        for lesson in course.lessons
        if any(measure.id == measure_id for measure in lesson.measures)
    )


def has_many_readers(course: Course, measure_id: str) -> bool:
    """Tell whether several lessons record a measure, so that its name alone says too little."""
    return len(list_readers(course, measure_id)) > 1


def is_gap(measure: Measure) -> bool:
    """Tell whether a measure is a gap in centimetres that closes as people get on."""
    return measure.better is Better.LESS and measure.unit == "cm"


def take_best(numbers: tuple[float, ...], better: Better, trials: int = MOST_TRIALS) -> float:
    """Return the best of the first trials of a day; the first where none is better."""
    like = numbers[:trials]
    if better is Better.NONE:
        return like[0]
    return max(like) if better is Better.MORE else min(like)


def _group(course: Course, measure_id: str, rows: list[Result]) -> tuple[MeasuredDay, ...]:
    is_word = bool(list_words(course.vocabulary.measures[measure_id]))
    days: dict[date, list[Result]] = {}
    for row in rows:
        if isinstance(row.value, str) is is_word:
            days.setdefault(row.day, []).append(row)
    return tuple(
        MeasuredDay(
            day,
            tuple(row.value for row in found if not isinstance(row.value, str)),
            str(found[-1].value) if is_word else "",
        )
        for day, found in sorted(days.items())
    )
