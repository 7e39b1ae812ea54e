"""Home plan: what a person practises at home in the coming weeks, and when they measure again.

It clears nobody: with a question open that a clinician has to answer first, it holds no lessons.
"""

import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Drill, Lesson
from builder.course.trait import find_traits, is_loaded
from builder.course.vocabulary import Measure
from builder.planning.home_days import Span, Wish, share_out
from builder.planning.home_ladder import HomeLadder, climb_home
from builder.planning.home_lessons import (
    LeftInClass,
    WhyInClass,
    choose_lessons,
    list_asked_first,
)
from builder.planning.overview import PersonOverview
from builder.planning.permission import Adaptation, find_adaptations
from builder.planning.progress import find_rest
from builder.planning.readings import list_until
from builder.planning.retest import Retest
from builder.planning.weaker_side import SidePlan, find_weaker_side, plan_sides
from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.program import Program
from builder.records.weeks_order import WeeksOrder
from builder.sums.practice import Kind, find_frequency
from builder.sums.timing import time_drill

WEEKS = 4
MOST_WEEKS = 12
_QUIET_DAYS = 3
"""Where a strand says nothing (ours)."""
_WORK = "work"
_LOOK_BACK_DAYS = 7


@dataclass(frozen=True, slots=True)
class HomeLesson:
    """One lesson to practise at home."""

    lesson_id: str
    kind: Kind
    days: tuple[date, ...]
    minutes: int
    """On each of its days, rounded up."""
    rest_seconds: float | None
    """None where nothing is counted."""
    side_plan: SidePlan | None
    adaptations: tuple[Adaptation, ...]


@dataclass(frozen=True, slots=True)
class NextRetest:
    """The next day on which the person measures again with a coach."""

    day: date
    measures: tuple[Measure, ...]
    is_class_day: bool = True
    """False where no class is known from the day on which something is due."""


@dataclass(frozen=True, slots=True)
class HomePlan:
    """The weeks of one person."""

    person_id: str
    span: Span
    asks_first: tuple[str, ...]
    """Conditions that a clinician has to answer first; then there are no lessons."""
    lessons: tuple[HomeLesson, ...]
    left: tuple[LeftInClass, ...]
    ladder: HomeLadder | None
    class_days: tuple[date, ...]
    """Within the span."""
    retest: NextRetest | None

    @property
    def days(self) -> tuple[date, ...]:
        """Return all days with practice at home, in order."""
        return tuple(sorted({day for lesson in self.lessons for day in lesson.days}))

    def list_thin_weeks(self, lesson: HomeLesson) -> tuple[int, ...]:
        """Return the numbers of weeks in which work stands under its published least days.

        Every class counts as a day of work. Quiet practice has no published least.
        """
        limits = find_frequency(lesson.kind)
        if not limits.needs_day_between:
            return ()
        days = {*lesson.days, *self.class_days}
        return tuple(
            number
            for number, week in enumerate(self.span.list_weeks(), 1)
            if len(days.intersection(week)) < limits.least_days
        )

    def count_minutes(self, day: date) -> int:
        """Return how long practice takes on a day."""
        return sum(lesson.minutes for lesson in self.lessons if day in lesson.days)


def find_class_days(
    orders: Iterable[ClassOrder], courses: Iterable[WeeksOrder], person_id: str
) -> tuple[date, ...]:
    """Return the days on which a person has a class, by the files of a program folder."""
    days = {order.day for order in orders if person_id in order.people}
    days |= {day for order in courses if person_id in order.people for day in order.days}
    return tuple(sorted(days))


def plan_home(
    course: Course,
    program: Program,
    overview: PersonOverview,
    class_days: Collection[date],
    *,
    weeks: int = WEEKS,
) -> HomePlan:
    """Plan a person's practice from the day after the overview's."""
    person, day = overview.person, overview.day
    span = Span(day + timedelta(days=1), weeks)
    inside = tuple(sorted(each for each in class_days if span.first_day <= each <= span.last_day))
    plan = HomePlan(
        person.id,
        span,
        list_asked_first(course, overview),
        (),
        (),
        None,
        inside,
        find_next_retest(overview.retests, span, class_days),
    )
    if plan.asks_first:
        return replace(plan, retest=None)
    attendance = tuple(
        row for row in program.attendance_by_person.get(person.id, ()) if row.day <= day
    )
    choice = choose_lessons(course, overview, attendance)
    wanted = [_prepare(course, overview, lesson, attendance) for lesson in choice.lessons]
    wishes = [_wish(course, each) for each in wanted]
    days = share_out(wishes, span, class_days, _list_worked(course, attendance, day))
    placed = [replace(each, days=days[each.lesson_id]) for each in wanted]
    results = list_until(program.results, person.id, day)
    ladders = [
        climb_home(course, person, course.by_id[each.lesson_id], results, day)
        for each in placed
        if each.days
    ]
    return replace(
        plan,
        lessons=tuple(each for each in placed if each.days),
        left=(*choice.left, *_list_crowded_out(course, placed)),
        ladder=next((ladder for ladder in ladders if ladder), None),
    )


def find_next_retest(
    retests: Iterable[Retest], span: Span, class_days: Iterable[date]
) -> NextRetest | None:
    """Return the first day with something to measure: a day of class where one is known.

    All that is due by then is measured on it.
    """
    every = tuple(retests)
    if not every:
        return None
    earliest = max(span.first_day, min(retest.due for retest in every))
    later = [day for day in sorted(class_days) if day >= earliest]
    day = later[0] if later else earliest
    measures = dict.fromkeys(retest.measure for retest in every if retest.due <= day)
    return NextRetest(day, tuple(measures), bool(later))


def find_kind(drill: Drill, aim: str) -> Kind:
    """Return what a drill trains, as far as days of rest go: load, control, or a quiet one.

    Quiet drills and stretches take turns on any day, so both are of the kind of stretches (ours).
    """
    if "load" in find_traits(drill):
        return Kind.RESISTANCE
    return Kind.CONTROL if aim == _WORK or is_loaded(drill) else Kind.STRETCH


def _prepare(
    course: Course, overview: PersonOverview, lesson: Lesson, attendance: tuple[Attendance, ...]
) -> HomeLesson:
    rest = find_rest(lesson, attendance, overview.standing.tries.get(lesson.id, ()))
    sides = plan_sides(lesson, find_weaker_side(course, lesson, overview.sides))
    rest_seconds = rest.seconds if rest else None
    return HomeLesson(
        lesson_id=lesson.id,
        kind=find_kind(lesson.drill, lesson.strand.aim),
        days=(),
        minutes=_count_minutes(course, lesson, rest_seconds, sides),
        rest_seconds=rest_seconds,
        side_plan=sides,
        adaptations=find_adaptations(course, overview.person, lesson, day=overview.day),
    )


def _count_minutes(
    course: Course, lesson: Lesson, rest_seconds: float | None, sides: SidePlan | None
) -> int:
    drill, more = lesson.drill, 0.0
    if isinstance(drill.dose, Dose) and rest_seconds is not None:
        drill = replace(drill, dose=replace(drill.dose, rest_seconds=math.ceil(rest_seconds)))
    time = time_drill(drill, course.settings.limits.set_up_seconds)
    if sides:
        more = time.set_seconds + (rest_seconds or 0)
    return math.ceil((time.lesson_seconds + more) / 60)


def _wish(course: Course, home: HomeLesson) -> Wish:
    strand = course.by_id[home.lesson_id].strand
    limits = find_frequency(home.kind)
    wanted = min(max(strand.days_a_week or _QUIET_DAYS, limits.least_days), limits.most_days)
    return Wish(home.lesson_id, home.kind, wanted, home.minutes)


def _list_worked(course: Course, attendance: Iterable[Attendance], day: date) -> tuple[date, ...]:
    """Return the days of the last week on which the person worked."""
    since = day - timedelta(days=_LOOK_BACK_DAYS)
    rows = (row for row in attendance if row.day > since and row.lesson_id in course.by_id)
    worked = {
        row.day
        for row in rows
        if find_frequency(
            find_kind(course.by_id[row.lesson_id].drill, course.by_id[row.lesson_id].strand.aim)
        ).needs_day_between
    }
    return tuple(sorted(worked))


def _list_crowded_out(course: Course, placed: Iterable[HomeLesson]) -> tuple[LeftInClass, ...]:
    return tuple(
        LeftInClass(course.by_id[each.lesson_id].strand.id, WhyInClass.NO_ROOM)
        for each in placed
        if not each.days
    )
