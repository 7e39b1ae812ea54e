"""The group: all clients of a program on one day, with what a coach has to see to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.planning.look_at import LookKind
from builder.planning.overview import PersonOverview, survey_person
from builder.planning.permission import ASK_AGAIN_AFTER
from builder.planning.retest import Retest
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.program import Program
from builder.records.weeks_order import WeeksOrder
from builder.sums.advance import was_away


@dataclass(frozen=True, slots=True)
class GroupMember:
    """One client on one day."""

    overview: PersonOverview
    stuck: tuple[str, ...]
    """Lessons that were ``again`` three times in a row."""
    retests: tuple[Retest, ...]
    """Those that are due, measures that were never read among them."""
    unanswered: tuple[str, ...]
    """Conditions for which no clinician's answer is on record."""
    old_answers: tuple[str, ...]
    """Conditions whose answer is more than 26 weeks old."""
    is_away: bool
    """Whether the last class is six weeks ago or more."""

    @property
    def person(self) -> Person:
        """Return who it is."""
        return self.overview.person


@dataclass(frozen=True, slots=True)
class Group:
    """All clients, by name."""

    day: date
    members: tuple[GroupMember, ...]
    left_out: tuple[str, ...]
    """Ids of people whose own rows have faults: nothing is told of them by half."""


def survey_group(
    course: Course,
    program: Program,
    day: date,
    *,
    courses: Iterable[WeeksOrder] = (),
    unreadable: Iterable[str] = (),
) -> Group:
    """Return the group on a day.

    Clients are those with attendance up to the day and those of class files and files for several
    weeks; the coaches that these files name are none.
    """
    orders: tuple[ClassOrder | WeeksOrder, ...] = (*program.classes, *courses)
    coaches = {name.casefold() for order in orders for name in order.coaches}
    came = {row.person_id for row in program.attendance if row.day <= day}
    came |= {person for order in orders for person in order.people}
    people = [
        person
        for person in program.people.values()
        if person.id in came and not {person.id.casefold(), person.name.casefold()} & coaches
    ]
    people.sort(key=lambda person: (person.name.casefold(), person.id))
    members = tuple(_sum_up(survey_person(course, program, person, day)) for person in people)
    return Group(day, members, tuple(sorted(unreadable)))


def _sum_up(overview: PersonOverview) -> GroupMember:
    person, day, last_day = overview.person, overview.day, overview.standing.last_day
    return GroupMember(
        overview,
        stuck=tuple(
            dict.fromkeys(look.lesson_id for look in overview.looks if look.kind is LookKind.STUCK)
        ),
        retests=tuple(retest for retest in overview.retests if retest.is_due),
        unanswered=overview.uncleared,
        old_answers=tuple(
            name
            for name in person.conditions
            if name not in overview.uncleared and day - person.cleared[name] > ASK_AGAIN_AFTER
        ),
        is_away=last_day is not None and was_away(last_day, day),
    )
