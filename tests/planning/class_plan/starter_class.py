"""Small classes of the starter course, written as days and outcomes."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from builder.planning.class_plan.guests import Guest, find_guest
from builder.planning.class_plan.options import Options
from builder.planning.class_plan.planned import Planner
from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result
from tests.planning.rows import OUTCOMES
from tests.planning.starter import read_starter

DAY = date(2026, 11, 24)


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def did(person: str, lesson: str, letters: str, last: int = 2) -> list[Attendance]:
    """Do a lesson every other day, an outcome a letter, the last one so many days ago."""
    days = [ago(last + 2 * back) for back in reversed(range(len(letters)))]
    return [
        Attendance(day, person, lesson, OUTCOMES[letter])
        for day, letter in zip(days, letters, strict=True)
    ]


def did_all(person: str, until: str, last: int = 4) -> list[Attendance]:
    """Be ready twice in all lessons of the teaching order before one."""
    order = read_starter().teaching_order
    before = order[: order.index(until)]
    return [row for lesson in before for row in did(person, lesson, "rr", last)]


def read(measure: str, value: float | str, lesson: str, days: int = 3) -> Result:
    """Measure C1 so many days ago."""
    return Result(ago(days), "C1", measure, None, value, lesson_id=lesson)


def make_program(
    people: Sequence[Person], rows: Sequence[Attendance], results: Sequence[Result] = ()
) -> Program:
    return Program({person.id: person for person in people}, tuple(results), tuple(rows))


def make_order(
    people: Sequence[str],
    *,
    minutes: int = 60,
    coaches: int = 1,
    strands: Sequence[str] = (),
    props: Mapping[str, int] | None = None,
) -> ClassOrder:
    coach_names = tuple(f"K{number}" for number in range(coaches))
    return ClassOrder(
        DAY, "small", minutes, tuple(people), coach_names, tuple(strands), props or {}
    )


def make_guest(
    rows: Sequence[Attendance], results: Sequence[Result] = (), person: Person | None = None
) -> Guest:
    """Make C1 as they come to a class."""
    somebody = person or Person("C1", "Cy")
    return find_guest(read_starter(), make_program([somebody], rows, results), "C1", DAY)


def make_options(guest: Guest, *strands: str) -> Options:
    return Options(read_starter(), make_order([guest.person_id], strands=strands), [guest])


def make_planner(program: Program, order: ClassOrder) -> Planner:
    return Planner(read_starter(), program, order)
