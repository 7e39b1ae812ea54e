"""A program: everything that a studio keeps about its people, in one frozen value."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.result import Result


@dataclass(frozen=True)
class Program:
    """The people of a studio and what was recorded of them, rows in the order of their files."""

    people: Mapping[str, Person] = field(default_factory=dict)
    results: tuple[Result, ...] = ()
    attendance: tuple[Attendance, ...] = ()
    classes: tuple[ClassOrder, ...] = ()

    @cached_property
    def results_by_person(self) -> dict[str, tuple[Result, ...]]:
        """Return everybody's results by day; rows of one day stay in their order."""
        rows = sorted(self.results, key=lambda row: row.day)
        return {
            person: tuple(row for row in rows if row.person_id == person) for person in self.people
        }

    @cached_property
    def attendance_by_person(self) -> dict[str, tuple[Attendance, ...]]:
        """Return everybody's attendance by day; rows of one day stay in their order."""
        rows = sorted(self.attendance, key=lambda row: row.day)
        return {
            person: tuple(row for row in rows if row.person_id == person) for person in self.people
        }
