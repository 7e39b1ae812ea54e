"""Placement: which answers lead to which first lesson of each strand, as a table."""

from collections.abc import Mapping
from dataclasses import dataclass

TIMED = "seconds"
"""The kind of a question that is answered by a stopwatch."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question of the self-check."""

    id: str
    text: str
    lesson_id: str
    """The lesson that tells how to look; empty where none does."""
    answers: Mapping[str, str]
    """Id to words; empty where it is timed."""
    is_timed: bool = False


@dataclass(frozen=True, slots=True)
class Condition:
    """What an answer must be; a question without an answer meets no condition."""

    question_id: str
    answers: frozenset[str] = frozenset()
    from_seconds: float | None = None
    under_seconds: float | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """Where somebody starts whose answers meet every condition."""

    conditions: tuple[Condition, ...]
    lesson_id: str
    """Empty where the strand has to wait."""
    why: str


@dataclass(frozen=True, slots=True)
class StrandStart:
    """The ways into one strand, the first that fits counts; the last one fits everybody."""

    strand_id: str
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class Placement:
    """The whole table."""

    ask_first: tuple[str, ...]
    """Whom it sends to a clinician before anything else."""
    questions: tuple[Question, ...]
    starts: tuple[StrandStart, ...]
