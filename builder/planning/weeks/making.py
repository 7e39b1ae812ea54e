"""Making the problem of several weeks from a file for them, the course and the records."""

from collections.abc import Mapping
from datetime import date, timedelta

from builder.course.course import Course
from builder.course.vocabulary import Strand
from builder.planning.class_plan.guests import find_guest
from builder.planning.permission import Barrier
from builder.planning.standing import OBSERVE, Standing
from builder.planning.weeks.pace import count_classes, find_pace
from builder.planning.weeks.problem import (
    MOST_MORE_WEEKS,
    ClassDay,
    Hindered,
    Hindrance,
    Step,
    StrandRule,
    Way,
    WeeksProblem,
    count_places,
)
from builder.records.program import Program
from builder.records.weeks_order import DAYS_A_WEEK, WeeksOrder, list_class_days
from builder.sums.practice import Kind, find_frequency

_WORK = "work"


def make_problem(course: Course, program: Program, order: WeeksOrder, day: date) -> WeeksProblem:
    """Return the problem of planning the class days of a file from a day on.

    What was recorded before that day counts; see `find_first_day`. Raises KeyError for somebody
    who isn't in the program, and BuilderError where a notice of the course can't be read.
    """
    guests = [find_guest(course, program, person, day) for person in order.people]
    days = list_days(order)
    strands = _list_strands(course, order, has_retests=any(each.is_retest for each in days))
    worked_on = [strand.id for strand in strands]
    return WeeksProblem(
        days=tuple(each for each in days if each.week <= order.weeks and each.day >= day),
        places=count_places(order.minutes),
        strands=strands,
        ways={
            guest.person_id: make_way(
                course, order.aim, guest.standing, guest.barriers, strands=worked_on
            )
            for guest in guests
        },
        later=tuple(each for each in days if each.week > order.weeks),
    )


def find_first_day(program: Program, order: WeeksOrder, day: date) -> date:
    """Return the day from which to plan: the next one where attendance of the day is noted."""
    noted = any(row.day == day and row.person_id in order.people for row in program.attendance)
    return day + timedelta(days=1) if noted else day


def list_days(order: WeeksOrder) -> tuple[ClassDay, ...]:
    """Return the class days of a file and of further weeks.

    A retest comes on the first class day from the beginning of every so many weeks on; weeks
    without a class put it off.
    """
    weeks = order.weeks + MOST_MORE_WEEKS
    days = [
        day
        for day in list_class_days(order.first_day, weeks, order.weekdays)
        if day not in order.holidays
    ]
    numbers = [(day - order.first_day).days // DAYS_A_WEEK + 1 for day in days]
    every = order.retest_weeks
    due = range(every, weeks + 1, every) if every else ()
    firsts = {
        next((day for day, at in zip(days, numbers, strict=True) if at >= week), None)
        for week in due
    }
    return tuple(
        ClassDay(day, week, day in firsts) for day, week in zip(days, numbers, strict=True)
    )


def make_way(
    course: Course,
    aim: tuple[str, ...],
    standing: Standing,
    barriers: Mapping[str, tuple[Barrier, ...]],
    *,
    strands: list[str],
) -> Way:
    """Return what lies between a person and the aim, back to what they have met."""
    needed = _find_needed(course, aim, standing)
    pace = find_pace(course, standing)
    steps: list[Step] = []
    hindered: list[Hindered] = []
    behind: list[str] = []
    for name in course.teaching_order:
        if name not in needed:
            continue
        lesson, before = course.by_id[name], needed[name]
        stuck = {each.lesson_id for each in hindered}.union(behind)
        if barriers.get(name):
            ground = Hindered(name, lesson.strand.id, Hindrance.BARRED, barriers[name])
            hindered.append(ground)
        elif lesson.strand.id not in strands:
            hindered.append(Hindered(name, lesson.strand.id, Hindrance.OTHER_STRAND))
        elif stuck.intersection(before):
            behind.append(name)
        else:
            classes = 1 if name in standing.met else count_classes(lesson, standing, pace)
            steps.append(Step(name, lesson.strand.id, before, classes))
    return Way(tuple(steps), tuple(hindered), tuple(behind))


def _find_needed(
    course: Course, aim: tuple[str, ...], standing: Standing
) -> dict[str, tuple[str, ...]]:
    """Return the lessons that are needed, each with those of them that come before it.

    An easier one is shown again before a lesson that was too much.
    """
    needed: dict[str, tuple[str, ...]] = {}
    waiting = [name for name in aim if name in course.by_id and name not in standing.met]
    while waiting:
        name = waiting.pop()
        if name in needed:
            continue
        before = [each for each in course.graph[name] if each not in standing.met]
        if name in standing.too_much:
            before += [each for each in course.by_id[name].easier if each in standing.set_back][:1]
        needed[name] = tuple(dict.fromkeys(before))
        waiting += before
    return needed


def _list_strands(
    course: Course, order: WeeksOrder, *, has_retests: bool
) -> tuple[StrandRule, ...]:
    wanted = order.strands or tuple(course.vocabulary.strands)
    return tuple(
        _make_rule(strand, is_worked_on=strand.id in wanted)
        for strand in course.vocabulary.strands.values()
        if strand.id in wanted or (has_retests and strand.aim == OBSERVE)
    )


def _make_rule(strand: Strand, *, is_worked_on: bool) -> StrandRule:
    """Return how often a strand may come: as the course says, and work as the guidance does."""
    is_work = strand.aim == _WORK
    frequency = find_frequency(Kind.RESISTANCE)
    most = [strand.days_a_week] if strand.days_a_week else []
    most += [frequency.most_days] if is_work else []
    return StrandRule(
        id=strand.id,
        is_check=strand.aim == OBSERVE,
        is_worked_on=is_worked_on,
        needs_day_between=is_work and frequency.needs_day_between,
        most_days_a_week=min(most, default=None),
    )
