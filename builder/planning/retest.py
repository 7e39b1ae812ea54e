"""Retest: which measures are due again, and which first checks were never done."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.course.vocabulary import Measure
from builder.planning.measured_days import find_lesson_id, list_readers
from builder.planning.progress import IsBarred
from builder.planning.standing import OBSERVE
from builder.records.result import Result
from builder.sums.advance import find_retest_day


@dataclass(frozen=True, slots=True)
class Retest:
    """One measure that is to be read again, or for the first time."""

    measure: Measure
    lesson_id: str
    """Where to read it."""
    newest: date | None
    """None where it was never read."""
    due: date
    is_due: bool
    is_overdue: bool
    """True where its day is past."""


def find_retests(
    course: Course, results: Iterable[Result], day: date, is_barred: IsBarred
) -> tuple[Retest, ...]:
    """Return when each measure is due: in each check that records it, else where it was read last.

    Takes one person's results in order of their days. Lessons that are barred for the person are
    left out; so are measures of drills that were never read.
    """
    rows = [row for row in results if row.day <= day]
    found: list[Retest] = []
    for measure in course.vocabulary.measures.values():
        readers = list_readers(course, measure.id)
        checks = [name for name in readers if course.by_id[name].strand.aim == OBSERVE]
        own = [row for row in rows if row.measure_id == measure.id]
        read_in = [find_lesson_id(course, row) or readers[0] for row in own] if readers else []
        for name in checks or read_in[-1:]:
            if not is_barred(name):
                days = [row.day for row, lesson in zip(own, read_in, strict=True) if lesson == name]
                found.append(_make(measure, name, days[-1] if days else None, day))
    return tuple(found)


def _make(measure: Measure, lesson_id: str, newest: date | None, day: date) -> Retest:
    due = find_retest_day(newest) if newest else day
    return Retest(measure, lesson_id, newest, due, due <= day, due < day)
