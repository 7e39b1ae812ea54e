"""Guests: the people of a class, with all that a plan has to know of each."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from builder.course.course import Course
from builder.course.trait import is_loaded
from builder.planning.overview import find_person_standing
from builder.planning.permission import Adaptation, Barrier, find_adaptations, find_barriers
from builder.planning.retest import find_retests
from builder.planning.standing import Standing
from builder.planning.weaker_side import compare_person_sides, find_weaker_side
from builder.records.attendance import Attendance
from builder.records.program import Program
from builder.records.result import Result, Side


@dataclass(frozen=True)
class Guest:
    """One person who comes to a class, as far as a plan has to know them."""

    person_id: str
    standing: Standing
    barriers: Mapping[str, tuple[Barrier, ...]]
    """What bars a lesson, by lesson; lessons that nothing bars are left out."""
    adaptations: Mapping[str, tuple[Adaptation, ...]]
    """What a notice changes in a lesson, by lesson; lessons that stay as they are are left out."""
    weaker_sides: Mapping[str, Side]
    """The side that gets one set more, by lesson."""
    due: frozenset[str] = frozenset()
    """Checks whose measure is to be read again."""
    worked_yesterday: bool = False
    """Whether the day before held work, so that a day of rest is due."""


def find_guest(course: Course, program: Program, person_id: str, day: date) -> Guest:
    """Return a person as they come to a class on a day, with what was recorded up to it.

    Rows of the day itself count: what was too much in the morning bars the evening.

    Raises KeyError for somebody who isn't in the program.
    """
    person = program.people[person_id]
    results = [row for row in program.results_by_person[person_id] if row.day <= day]
    attendance = [row for row in program.attendance_by_person[person_id] if row.day <= day]
    barriers = {
        lesson.id: found
        for lesson in course.lessons
        if (found := find_barriers(course, person, results, lesson, day))
    }
    standing, _ = find_person_standing(course, person, results, attendance, day)
    adaptations = {
        lesson.id: changes
        for lesson in course.lessons
        if (changes := find_adaptations(course, person, lesson, day=day))
    }
    return Guest(
        person_id=person_id,
        standing=standing,
        barriers=barriers,
        adaptations=adaptations,
        weaker_sides=_find_weaker_sides(course, results),
        due=_find_due(course, results, day, barriers),
        worked_yesterday=_has_worked(course, attendance, day - timedelta(days=1)),
    )


def _find_weaker_sides(course: Course, results: Iterable[Result]) -> dict[str, Side]:
    comparisons = compare_person_sides(course, results)
    found = {lesson.id: find_weaker_side(course, lesson, comparisons) for lesson in course.lessons}
    return {name: side for name, side in found.items() if side is not None}


def _find_due(
    course: Course, results: Iterable[Result], day: date, barred: Iterable[str]
) -> frozenset[str]:
    names = frozenset(barred)
    retests = find_retests(course, results, day, lambda name: name in names)
    return frozenset(retest.lesson_id for retest in retests if retest.is_due)


def _has_worked(course: Course, attendance: Iterable[Attendance], day: date) -> bool:
    """Tell whether somebody worked on a day, so that the next one is for rest."""
    return any(
        row.day == day
        and row.lesson_id in course.by_id
        and is_loaded(course.by_id[row.lesson_id].drill)
        for row in attendance
    )
