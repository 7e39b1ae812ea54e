"""The group: who counts as a client, and what a coach has to see to."""

from dataclasses import replace
from datetime import date, timedelta

from builder.planning.group import Group, survey_group
from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.program import Program
from tests.planning.rows import do, on
from tests.planning.starter import make_person, read_starter


def call(person_id: str, name: str, person: Person | None = None) -> Person:
    return replace(person or make_person(), id=person_id, name=name)


def survey(people: list[Person], rows: list[Attendance], day: date, *orders: ClassOrder) -> Group:
    program = Program({each.id: each for each in people}, (), tuple(rows), orders)
    return survey_group(read_starter(), program, day, unreadable=("x-9", "x-1"))


def order(*people: str, coaches: tuple[str, ...] = ("coach",)) -> ClassOrder:
    return ClassOrder(on(30), "tuesday", 45, people, coaches, ())


def test_clients_came_or_are_to_come_and_coaches_are_none() -> None:
    people = [call("ro-1", "zoe"), call("b", "Ann"), call("c", "Una"), call("d", "Kit")]
    rows = do("ready-to-start", "r")
    group = survey(people, rows, on(20), order("b", coaches=("Kit",)))
    assert [each.person.id for each in group.members] == ["b", "ro-1"]
    assert group.left_out == ("x-1", "x-9")
    group = survey(people, rows, on(-1), order("b", "d", coaches=("D",)))
    assert [each.person.id for each in group.members] == ["b"]


def test_stuck_away_and_retests_are_told() -> None:
    rows = [*do("ready-to-start", "r"), *do("belly-breath", "aaa")]
    (member,) = survey([call("ro-1", "Ann")], rows, on(5)).members
    assert (member.stuck, member.is_away) == (("belly-breath",), False)
    assert member.retests
    assert all(each.is_due for each in member.retests)
    assert not survey([call("ro-1", "Ann")], rows, on(45)).members[0].is_away
    assert survey([call("ro-1", "Ann")], rows, on(46)).members[0].is_away


def test_answers_are_missing_until_their_day_and_old_after_half_a_year() -> None:
    person = call("b", "Ann", make_person("reflux", cleared={"reflux": on(0)}))
    for day, unanswered, old in (
        (on(-1), ("reflux",), ()),
        (on(0) + timedelta(weeks=26), (), ()),
        (on(1) + timedelta(weeks=26), (), ("reflux",)),
    ):
        (member,) = survey([person], [], day, order("b")).members
        assert (member.unanswered, member.old_answers) == (unanswered, old)
