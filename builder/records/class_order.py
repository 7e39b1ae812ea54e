"""A class as it is asked for: who comes when, for how long, with what at hand."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from builder.findings import Place


@dataclass(frozen=True, slots=True)
class ClassOrder:
    """What a class file says. Its day and name are those of the file: ``<date>-<name>.yml``."""

    day: date
    name: str
    minutes: int
    people: tuple[str, ...]
    """Ids, in the order in which they were written."""
    coaches: tuple[str, ...]
    """Names or ids; each can look closely at one person in a block."""
    strands: tuple[str, ...]
    """Ids of the strands to work on; empty means all."""
    props: Mapping[str, int] = field(default_factory=dict)
    """What is at hand, by prop; a prop that is left out is there as often as the course says."""
    most_blocks: int = 10
    rest_seconds: int = 60
    """The rest after a block of work."""
    most_new: int = 2
    """How many lessons may be new to one person in one class."""
    note: str = ""
    """What the coach wrote for themselves."""
    place: Place = field(default_factory=lambda: Place(""))

    @property
    def title(self) -> str:
        """Return the day and the name, as the file has them."""
        return f"{self.day.isoformat()}-{self.name}"
