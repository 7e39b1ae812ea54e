"""Placement: which answers lead to which first lesson of each strand, as a table."""

from collections.abc import Mapping
from dataclasses import dataclass, field

TIMED = "seconds"
"""The kind of a question that is answered by a stopwatch."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """Where a coach's records answer a question; the site's self-check knows nothing of it."""

    measure_id: str = ""
    """Its newest result in the question's lesson answers; empty where no measure does."""
    words: Mapping[str, str] = field(default_factory=dict)
    """Word of that measure to the id of an answer, every word; empty where it is timed."""
    conditions: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Answer to the conditions that give it, the most careful answer first."""
    ready: Mapping[str, str] = field(default_factory=dict)
    """Answer to the lesson that somebody who gives it is ready in; the last that fits counts."""
    otherwise: str = ""
    """The answer where records tell nothing; empty where there is none then."""
    bars: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Answer to the traits of lessons that people who give it leave out."""


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
    evidence: Evidence = field(default_factory=Evidence)


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
