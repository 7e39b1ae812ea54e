"""Guests: the people of a class, with all that a plan has to know of each."""

from collections.abc import Iterable
from datetime import date, timedelta

from builder.course.course import Course
from builder.course.trait import is_loaded
from builder.planning.class_plan.options import Guest
from builder.planning.permission import find_barriers
from builder.planning.placing import place_person
from builder.planning.retest import find_retests
from builder.planning.standing import find_standing
from builder.planning.weaker_side import compare_person_sides, find_weaker_side
from builder.records.attendance import Attendance
from builder.records.program import Program
from builder.records.result import Result, Side


def find_guest(course: Course, program: Program, person_id: str, day: date) -> Guest:
    """Return a person as they come to a class on a day; what was recorded on it doesn't count yet.

    Raises KeyError for somebody who isn't in the program.
    """
    person = program.people[person_id]
    results = [row for row in program.results_by_person[person_id] if row.day < day]
    attendance = [row for row in program.attendance_by_person[person_id] if row.day < day]
    starts = place_person(course, person, results, (), day=day)
    placed = [start.lesson_id for start in starts if start.lesson_id]
    barriers = {
        lesson.id: found
        for lesson in course.lessons
        if (found := find_barriers(course, person, results, lesson, day))
    }
    return Guest(
        person_id=person_id,
        standing=find_standing(course, attendance, placed, day),
        barriers=barriers,
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
