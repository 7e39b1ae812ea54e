"""A course of several weeks as it is asked for: who comes when, and where the group wants to be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from builder.findings import Place

DAYS_A_WEEK = 7


class Weekday(StrEnum):
    """Days of the week, in the order of ISO 8601."""

    MONDAY = "mon"
    TUESDAY = "tue"
    WEDNESDAY = "wed"
    THURSDAY = "thu"
    FRIDAY = "fri"
    SATURDAY = "sat"
    SUNDAY = "sun"

    @classmethod
    def of(cls, day: date) -> "Weekday":
        """Return the weekday of a day."""
        return tuple(cls)[day.weekday()]


@dataclass(frozen=True, slots=True)
class WeeksOrder:
    """What such a file says; its first day and name are those of the file's own name."""

    first_day: date
    name: str
    weeks: int
    weekdays: tuple[Weekday, ...]
    """In the order of the week."""
    minutes: int
    """Of each class."""
    people: tuple[str, ...]
    """Ids, in the order in which they were written."""
    aim: tuple[str, ...]
    """Ids of the lessons that the group wants to reach."""
    coaches: tuple[str, ...]
    """Names or ids; each can look closely at one person in a block."""
    strands: tuple[str, ...] = ()
    """Ids of the strands to work on; empty means all."""
    retest_weeks: int = 2
    """How many weeks lie between two retests; 0 for none."""
    holidays: tuple[date, ...] = ()
    """Days without a class, in their order."""
    props: Mapping[str, int] = field(default_factory=dict)
    """What is at hand, by prop; a prop that is left out is there as often as the course says."""
    note: str = ""
    """What the coach wrote for themselves."""
    place: Place = field(default_factory=lambda: Place(""))

    @property
    def title(self) -> str:
        """Return the first day and the name, as the file has them."""
        return f"{self.first_day.isoformat()}-{self.name}"

    @property
    def days(self) -> tuple[date, ...]:
        """Return the days on which there is a class, in their order."""
        days = list_class_days(self.first_day, self.weeks, self.weekdays)
        return tuple(day for day in days if day not in self.holidays)


def list_class_days(first: date, weeks: int, weekdays: Iterable[Weekday]) -> tuple[date, ...]:
    """Return the days of some weeks, reckoned from the first day, that are one of the weekdays."""
    wanted = frozenset(weekdays)
    days = (first + timedelta(days=count) for count in range(weeks * DAYS_A_WEEK))
    return tuple(day for day in days if Weekday.of(day) in wanted)
