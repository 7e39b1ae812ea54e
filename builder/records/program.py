"""A program: everything that a studio keeps about its people, in one frozen value."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar

from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.result import Result

_Row = TypeVar("_Row", Attendance, Result)


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
        return _group(self.results, self.people)

    @cached_property
    def attendance_by_person(self) -> dict[str, tuple[Attendance, ...]]:
        """Return everybody's attendance by day; rows of one day stay in their order."""
        return _group(self.attendance, self.people)


def _group(rows: Iterable[_Row], people: Iterable[str]) -> dict[str, tuple[_Row, ...]]:
    """Return the rows of each person by day."""
    own: dict[str, list[_Row]] = {person: [] for person in people}
    for row in sorted(rows, key=lambda row: row.day):
        if row.person_id in own:
            own[row.person_id].append(row)
    return {person: tuple(each) for person, each in own.items()}
