"""Attendance: how one lesson went for one person on one day. Rows are only ever added."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Outcome(StrEnum):
    """How a lesson went."""

    READY = "ready"
    """The person showed the lesson's sign of readiness."""
    AGAIN = "again"
    """Not yet: the same once more."""
    EASIER = "easier"
    """Too much: an easier version was needed."""


@dataclass(frozen=True, slots=True)
class Attendance:
    """One lesson that one person did on one day."""

    day: date
    person_id: str
    lesson_id: str
    outcome: Outcome
    breaths_done: int | None = None
    rest_seconds: int | None = None
    entry: str = ""
    """The mark that a class screen gave the row; empty in rows written by hand."""
