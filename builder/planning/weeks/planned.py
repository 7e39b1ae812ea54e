"""Several weeks planned: the schedule, who won't reach the aim, and the classes to come of it."""

from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.errors import BuilderError
from builder.planning.weeks.explain import Shortfall, explain_shortfalls
from builder.planning.weeks.making import find_first_day, make_problem
from builder.planning.weeks.problem import WeeksProblem
from builder.planning.weeks.search import Found, find_schedule
from builder.records.class_order import ClassOrder
from builder.records.program import Program
from builder.records.weeks_order import WeeksOrder


@dataclass(frozen=True)
class PlannedWeeks:
    """All that is known of the weeks of a file, from a day on."""

    order: WeeksOrder
    problem: WeeksProblem
    found: Found
    shortfalls: tuple[Shortfall, ...]


def plan_weeks(course: Course, program: Program, order: WeeksOrder, day: date) -> PlannedWeeks:
    """Plan the class days of a file from a day on, by what is on record.

    BuilderError where none is left. Raises KeyError for somebody who isn't in the program.
    """
    problem = make_problem(course, program, order, find_first_day(program, order, day))
    if not problem.days:
        raise BuilderError(
            f'no class day of "{order.title}" is left from {day} on',
            "make a file for the next weeks",
        )
    found = find_schedule(problem)
    return PlannedWeeks(order, problem, found, explain_shortfalls(problem, found.schedule))


def list_classes(planned: PlannedWeeks) -> tuple[ClassOrder, ...]:
    """Return a class for each day on which there is something to work on."""
    order = planned.order
    return tuple(
        ClassOrder(
            day=each.day,
            name=order.name,
            minutes=order.minutes,
            people=order.people,
            coaches=order.coaches,
            strands=strands,
            props=order.props,
        )
        for each, strands in zip(planned.problem.days, planned.found.schedule.strands, strict=True)
        if strands
    )
