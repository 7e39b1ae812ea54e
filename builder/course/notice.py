"""Safety notices: whom they concern, what to do, and who says so."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from builder.course.vocabulary import Position, PropUse
from builder.findings import Place


class Action(StrEnum):
    """What a notice asks for, strongest first."""

    STOP = "stop"
    """Leave the drill out."""
    ASK_FIRST = "ask-first"
    """See a clinician before starting."""
    ADAPT = "adapt"
    """Do the drill in the way the notice says."""
    NOTE = "note"
    """Know this."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a caution comes from."""

    title: str
    publisher: str
    year: int | None
    common_practice: bool = False
    """The trade says so, and no publication is named."""


@dataclass(frozen=True, slots=True)
class Review:
    """Who looked a text over, and when."""

    by: str
    on: date


@dataclass(frozen=True, slots=True)
class Instead:
    """Where and with what a lesson is done instead."""

    position: Position
    props: tuple[PropUse, ...] = ()
    """What one person needs for it, besides what the lesson needs anyway."""


@dataclass(frozen=True, slots=True)
class Notice:
    """One safety notice, short for cards and long for the site."""

    id: str
    title: str
    action: Action
    traits: frozenset[str]
    """Any of these on a lesson calls for the notice."""
    everywhere: bool
    conditions: tuple[str, ...]
    short: str
    long: str
    """Markdown."""
    adapt: str
    sources: tuple[Source, ...]
    reviewed: Review | None
    place: Place
    positions: dict[str, tuple[int, int]]
    long_line: int = 1
    """The line of the file on which the long text begins."""
    instead: Instead | None = None
    """Where whom it names do the lesson; None where they stay in its own position."""

    def at(self, key: str) -> Place:
        """Return the place of a header key, or of the file's start."""
        line, column = self.positions.get(key, (1, 1))
        return Place(self.place.path, line, column)

    def concerns(self, traits: frozenset[str]) -> bool:
        """Tell whether a lesson with these traits must carry the notice."""
        return self.everywhere or bool(self.traits & traits)
