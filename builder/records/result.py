"""A result: one reading of one measure on one day. Results are only ever added."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Side(StrEnum):
    """Which side of the body was measured."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Result:
    """One reading."""

    day: date
    person_id: str
    measure_id: str
    """A measure of the course, or a question of its placement table that has no measure."""
    side: Side | None
    value: float | str
    """A number in the measure's unit, or one of its words, such as ``chest``."""
    unit: str = ""
    lesson_id: str = ""
    """The lesson in which it was read; empty where nobody wrote it."""
    note: str = ""
    entry: str = ""
    """The mark that a class screen gave the row; empty in rows written by hand."""
