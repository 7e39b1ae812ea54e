"""A lesson: one drill with its tempo, dose, words and place in the course."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from builder.course.dose import Dose, TimedDose
from builder.course.figure import Figure
from builder.course.notice import Review
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort, Measure, Position, PropUse, Strand
from builder.findings import Place


class Limb(StrEnum):
    """A part of the body that can move in a drill."""

    LEFT_ARM = "left-arm"
    RIGHT_ARM = "right-arm"
    LEFT_LEG = "left-leg"
    RIGHT_LEG = "right-leg"
    TRUNK = "trunk"


class Range(StrEnum):
    """How far limbs or trunk travel, least first."""

    NONE = "none"
    SMALL = "small"
    HALF = "half"
    FULL = "full"

    @property
    def rank(self) -> int:
        """Return 0 for none up to 3 for full."""
        return tuple(Range).index(self)


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph or list item of a lesson: inline Markdown and the line it starts on."""

    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Cues:
    """What to say on the in-breath and on the out-breath."""

    inhale: str
    exhale: str


@dataclass(frozen=True, slots=True)
class Waiver:
    """Why a lesson leaves a notice out, who says so, and when."""

    notice_id: str
    reason: str
    review: Review


@dataclass(frozen=True, slots=True)
class Words:
    """All that a lesson says to a client, and apart from it to a coach."""

    set_up: tuple[Passage, ...]
    steps: tuple[Passage, ...]
    if_hard: tuple[Passage, ...]
    coach_notes: tuple[Passage, ...]
    """Never on the public site and never on a client card."""
    cues: Cues | None
    watch_for: tuple[str, ...]
    ready_when: tuple[str, ...]
    stop_if: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drill:
    """What the body does: position, tempo, dose, effort, props and movement."""

    position: Position
    tempo: Tempo | None
    """None where people breathe at their own pace."""
    dose: Dose | TimedDose
    effort: Effort
    props: tuple[PropUse, ...] = ()
    moving: tuple[Limb, ...] = ()
    at_once: int = 0
    """How many of the moving limbs move at the same time, the trunk not counted."""
    range: Range = Range.NONE
    named_traits: frozenset[str] = frozenset()
    """Traits that the author names because nothing else tells them."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson of the course."""

    id: str
    title: str
    summary: str
    strand: Strand
    level: int
    drill: Drill
    words: Words
    builds_on: tuple[str, ...]
    easier: tuple[str, ...]
    harder: tuple[str, ...]
    measures: tuple[Measure, ...]
    ladder: tuple[float, ...]
    """Lengths of a breath in seconds, rung by rung; empty where the lesson is no ladder."""
    waivers: tuple[Waiver, ...]
    allowed: Mapping[str, str]
    """Rule id to the reason why this lesson may break it."""
    reviewed: Review | None
    figure: Figure | None
    """None where nothing tells how the body lies."""
    path: str
    """The file, from the project's folder."""
    positions: Mapping[str, tuple[int, int]]
    """Line and column of every header value, by dotted key such as ``dose.rest``."""
    was: tuple[str, ...] = ()
    """Former ids, so that what people kept on their devices still counts."""

    def at(self, key: str) -> Place:
        """Return the place of a header key, or of the nearest key around it."""
        while key and key not in self.positions:
            key = key.rpartition(".")[0]
        line, column = self.positions.get(key, (1, 1))
        return Place(self.path, line, column)

    def at_line(self, line: int) -> Place:
        """Return the place of a line of the body."""
        return Place(self.path, line)
