"""Overview: all that a coach may want to know of one person on a day, in one value."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.names import offer, suggest
from builder.errors import BuilderError
from builder.planning.look_at import Look, Seen, find_looks, list_next
from builder.planning.permission import (
    Barrier,
    find_adaptations,
    find_barriers,
    list_uncleared,
)
from builder.planning.placing import PersonStart, place_person
from builder.planning.progress import Progress, find_progress, find_rest
from builder.planning.readings import list_until
from builder.planning.retest import Retest, find_retests
from builder.planning.standing import Standing, find_standing
from builder.planning.trends import Trend, find_trends
from builder.planning.weaker_side import (
    SideComparison,
    SidePlan,
    compare_person_sides,
    find_weaker_side,
    plan_sides,
)
from builder.records.attendance import Attendance
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result
from builder.sums.practice import Rest


@dataclass(frozen=True, slots=True)
class PersonOverview:
    """One person on one day."""

    person: Person
    day: date
    uncleared: tuple[str, ...]
    """Conditions for which no clinician's answer is on record up to the day."""
    starts: tuple[PersonStart, ...]
    standing: Standing
    progress: tuple[Progress, ...]
    barriers: Mapping[str, tuple[Barrier, ...]]
    """Lesson to what bars the person from it; only lessons that are barred."""
    rests: Mapping[str, Rest]
    """Next lesson to the rest between its sets, where it counts."""
    side_plans: Mapping[str, SidePlan]
    """Next lesson to how its sets are shared out, where one side is the weaker one."""
    sides: tuple[SideComparison, ...]
    trends: tuple[Trend, ...]
    retests: tuple[Retest, ...]
    looks: tuple[Look, ...]


def find_person(program: Program, person_id: str, unreadable: Collection[str] = ()) -> Person:
    """Return a person by id; BuilderError for an unknown one, and for one whose row has faults."""
    if person_id in program.people:
        return program.people[person_id]
    if person_id in unreadable:
        raise BuilderError(
            f'the row of "{person_id}" has faults, and nothing is planned from half of it',
            "mend it in the file of people",
        )
    cure = suggest(person_id, program.people) or offer(sorted(program.people))
    raise BuilderError(f'nobody on record has the id "{person_id}"', cure)


def find_person_standing(
    course: Course,
    person: Person,
    results: Collection[Result],
    attendance: Collection[Attendance],
    day: date,
) -> tuple[Standing, tuple[PersonStart, ...]]:
    """Return what a person knows on a day, and where the table places them.

    What the record showed at any time answers the table, so that six weeks away or a lesson that
    was too much take back what the rules say, and not all that a start stood for.
    """
    shown = find_standing(course, attendance, (), day).shown
    starts = place_person(course, person, results, shown, day=day)
    placed = {start.lesson_id for start in starts if start.lesson_id}
    return find_standing(course, attendance, placed, day), starts


def survey_person(course: Course, program: Program, person: Person, day: date) -> PersonOverview:
    """Return all of one person on a day; rows after it don't count.

    Raises BuilderError where a notice of the course can't be read, since it might bar a lesson.
    """
    results = list_until(program.results, person.id, day)
    attendance = tuple(
        row for row in program.attendance_by_person.get(person.id, ()) if row.day <= day
    )
    barred = {
        lesson.id: found
        for lesson in course.lessons
        if (found := find_barriers(course, person, results, lesson, day))
    }
    standing, starts = find_person_standing(course, person, results, attendance, day)
    progress = find_progress(course, standing, barred.__contains__)
    following = [course.by_id[name] for name in list_next(progress)]
    sides = compare_person_sides(course, results)
    plans = {each.id: plan_sides(each, find_weaker_side(course, each, sides)) for each in following}
    rests = {each.id: _find_rest(each, standing, attendance) for each in following}
    seen = Seen(
        list_uncleared(person, day),
        progress,
        {each.id: find_adaptations(course, person, each, day=day) for each in following},
        sides,
        find_trends(course, results),
        find_retests(course, results, day, barred.__contains__),
    )
    return PersonOverview(
        person=person,
        day=day,
        uncleared=seen.uncleared,
        starts=starts,
        standing=standing,
        progress=progress,
        barriers=barred,
        rests={name: rest for name, rest in rests.items() if rest},
        side_plans={name: plan for name, plan in plans.items() if plan},
        sides=sides,
        trends=seen.trends,
        retests=seen.retests,
        looks=find_looks(course, seen),
    )


def _find_rest(
    lesson: Lesson, standing: Standing, attendance: Collection[Attendance]
) -> Rest | None:
    """Return the rest in a lesson: its own where somebody comes back to it, else as it got (ours).

    What they could do before six weeks away, or before something was too much, is to be shown.
    """
    if lesson.id in standing.once_more or lesson.id in standing.set_back:
        return find_rest(lesson, (), ())
    return find_rest(lesson, attendance, standing.tries.get(lesson.id, ()))
