"""The problem of several weeks: the class days, the strands, and what each person still needs."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from functools import cached_property

from builder.planning.permission import Barrier
from builder.sums.citation import ours

WARM_UP_AND_CLOSE_MINUTES = 10
STRAND_MINUTES = 12
MOST_MORE_WEEKS = 26
"""Further ahead nothing is looked for."""
ROOM_IN_A_CLASS = ours(
    "room-in-a-class",
    "a class has room for a strand in every 12 minutes beyond 10 for warm-up and close, and for "
    "one strand at least; a retest takes the place of one",
)


@dataclass(frozen=True, slots=True)
class ClassDay:
    """One day with a class."""

    day: date
    week: int
    """From 1; each begins on the weekday of the first class."""
    is_retest: bool = False
    """What was measured before is measured again, in the place of one strand."""


@dataclass(frozen=True, slots=True)
class StrandRule:
    """A strand of these classes, and how often it may come."""

    id: str
    is_check: bool = False
    """Its lessons look and measure; a retest has room for them."""
    is_worked_on: bool = True
    """False for checks that come on retest days only."""
    needs_day_between: bool = False
    most_days_a_week: int | None = None
    """In any seven days in a row; None for no limit."""


@dataclass(frozen=True, slots=True)
class Step:
    """A lesson on somebody's way to the aim."""

    lesson_id: str
    strand_id: str
    after: tuple[str, ...]
    """Lessons of the same way that it builds on."""
    classes: int
    """How many classes it is expected to need."""


class Hindrance(StrEnum):
    """Why a lesson on the way can't be begun in these classes at all."""

    BARRED = "barred"
    """A notice, the person's own hold or the air check bars it."""
    OTHER_STRAND = "other-strand"
    """Its strand is not worked on."""


@dataclass(frozen=True, slots=True)
class Hindered:
    """A lesson on the way that can't be begun, with the ground."""

    lesson_id: str
    strand_id: str
    hindrance: Hindrance
    barriers: tuple[Barrier, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """What lies between one person and the aim, in teaching order."""

    steps: tuple[Step, ...] = ()
    """Those that can be begun, sooner or later."""
    hindered: tuple[Hindered, ...] = ()
    behind: tuple[str, ...] = ()
    """Lessons that build on one that can't be begun."""

    @property
    def is_open(self) -> bool:
        """Tell whether nothing on it is hindered, so that time alone decides."""
        return not self.hindered


@dataclass(frozen=True, slots=True)
class Limit:
    """Of some class days, at most so many may have a strand."""

    strand_id: str
    days: tuple[int, ...]
    """Numbers of class days, from 0."""
    most: int


@dataclass(frozen=True)
class WeeksProblem:
    """All that a plan of several weeks is made from; everything comes in a fixed order."""

    days: tuple[ClassDay, ...]
    places: int
    """How many strands fit into one class."""
    strands: tuple[StrandRule, ...]
    """In teaching order."""
    ways: Mapping[str, Way]
    """By person."""
    later: tuple[ClassDay, ...] = ()
    """Class days of further weeks, were the course longer."""

    @cached_property
    def people(self) -> tuple[str, ...]:
        """Return everybody's id."""
        return tuple(self.ways)

    @cached_property
    def checks(self) -> tuple[str, ...]:
        """Return the strands for which a retest has room."""
        return tuple(strand.id for strand in self.strands if strand.is_check)

    @cached_property
    def limits(self) -> tuple[Limit, ...]:
        """Return what rest asks for, strand by strand."""
        return tuple(limit for strand in self.strands for limit in _list_limits(self.days, strand))

    def list_open_days(self, strand: StrandRule) -> tuple[int, ...]:
        """Return the class days that may have a strand, from 0."""
        return tuple(
            number
            for number, day in enumerate(self.days)
            if strand.is_worked_on or (strand.is_check and day.is_retest)
        )

    def count_places(self, number: int) -> int:
        """Return how many strands fit into a class day, besides the checks of a retest."""
        return max(0, self.places - self.days[number].is_retest)


def count_places(minutes: int) -> int:
    """Return how many strands fit into a class of some minutes (ours)."""
    return max(1, (minutes - WARM_UP_AND_CLOSE_MINUTES) // STRAND_MINUTES)


def add_weeks(problem: WeeksProblem, weeks: int) -> WeeksProblem:
    """Return the problem with some weeks more, as far as class days are known."""
    last = max((day.week for day in problem.days), default=0) + weeks
    more = tuple(day for day in problem.later if day.week <= last)
    rest = tuple(day for day in problem.later if day.week > last)
    return replace(problem, days=problem.days + more, later=rest)


def add_places(problem: WeeksProblem, more: int) -> WeeksProblem:
    """Return the problem with room for some strands more in each class."""
    return replace(problem, places=problem.places + more)


def lift_rest(problem: WeeksProblem) -> WeeksProblem:
    """Return the problem as it would be if no strand needed rest; for explanations only."""
    free = tuple(
        replace(strand, needs_day_between=False, most_days_a_week=None)
        for strand in problem.strands
    )
    return replace(problem, strands=free)


def keep_people(problem: WeeksProblem, people: tuple[str, ...]) -> WeeksProblem:
    """Return the problem for some of the people."""
    return replace(problem, ways={person: problem.ways[person] for person in people})


def _list_limits(days: tuple[ClassDay, ...], strand: StrandRule) -> tuple[Limit, ...]:
    limits = []
    for first, start in enumerate(days):
        apart = [(each.day - start.day).days for each in days]
        if strand.needs_day_between and 1 in apart:
            limits.append(Limit(strand.id, (first, apart.index(1)), 1))
        most = strand.most_days_a_week
        window = tuple(number for number, gap in enumerate(apart) if 0 <= gap < 7)
        if most is not None and len(window) > most:
            limits.append(Limit(strand.id, window, most))
    return tuple(limits)
