"""What a class card and a class screen say, as values. All of it is private.

Plain strings are not markup, and templates escape them. Numbers are finished: neither a template
nor a script does a sum with them, but for the passing of time.
"""

from dataclasses import dataclass
from datetime import date

from builder.course.dose import Dose, TimedDose
from builder.course.figure import Figure
from builder.course.tempo import Tempo


@dataclass(frozen=True, slots=True)
class RecordView:
    """A measure that can be recorded in a turn."""

    id: str
    title: str
    unit: str
    has_sides: bool
    words: tuple[str, ...]
    """The words to choose from; empty where a number is read."""
    is_timed: bool
    """Read with a stopwatch: a hold."""


@dataclass(frozen=True, slots=True)
class TurnView:
    """What one person does in one block."""

    person_id: str
    name: str
    lesson_id: str
    title: str
    position: str
    tempo: Tempo | None
    """None where this person breathes at their own pace."""
    dose: Dose | TimedDose
    dose_text: str
    """Sets, breaths and sides in words."""
    rest_seconds: int
    """This person's own rest between sets."""
    seconds: int
    """All of this person's sets and rests."""
    first_side: str
    """``left`` or ``right`` where the weaker side begins; else empty."""
    side_text: str
    """How the sets are shared out between the sides; empty where alike."""
    look_at: str
    """What to watch for, and what to do about it."""
    ready_when: tuple[str, ...]
    stop_if: tuple[str, ...]
    cue_inhale: str
    cue_exhale: str
    has_close_look: bool
    is_new: bool
    keeps_own_pace: bool
    cautions: tuple[str, ...]
    """What notices change in this lesson for this person, in words."""
    props: tuple[tuple[str, int], ...]
    """Titles and numbers."""
    records: tuple[RecordView, ...]
    figure: Figure | None
    """In the position that this person does it in."""
    caution_words: tuple[str, ...] = ()
    """A short word for each caution, in its order, which tells others nothing of the person."""
    instead: str = ""
    """That the person does it in another position, in a few words; empty where not."""
    general: frozenset[str] = frozenset()
    """Those of the cautions that hold in every lesson, so that no turn has to point at them."""

    @property
    def pointers(self) -> tuple[tuple[str, str], ...]:
        """Return each caution that this turn points at, with its short word."""
        both = zip(self.cautions, self.caution_words, strict=True)
        return tuple((caution, word) for caution, word in both if caution not in self.general)

    @property
    def short_words(self) -> str:
        """Return the short words of what this turn points at, each once; another position first."""
        words = (self.instead, *(word for _, word in self.pointers))
        return ", ".join(word for word in dict.fromkeys(words) if word)


@dataclass(frozen=True, slots=True)
class BlockView:
    """One block."""

    number: int
    start_seconds: int
    """Since the class began."""
    minutes: int
    rest_seconds: int
    """The rest after it."""
    count: str
    """The shared count in figures, or that all breathe at their own pace."""
    tempo: Tempo | None
    family: str
    is_loaded: bool
    props: tuple[tuple[str, int], ...]
    """What to lay out for the whole block: titles and numbers."""
    turns: tuple[TurnView, ...]


@dataclass(frozen=True, slots=True)
class NotThisView:
    """A lesson of a block that somebody who isn't planned for may not do there."""

    lesson_id: str
    title: str
    why: str
    is_barred: bool
    """By a notice, their own hold or the air check, and not by this class alone."""


@dataclass(frozen=True, slots=True)
class OtherView:
    """Somebody of the program who isn't planned for, and what they may do if they come as well."""

    person_id: str
    name: str
    turns: tuple[tuple[TurnView, ...], ...]
    """For each block, those to spare after the others, every turn that was checked for them."""
    not_these: tuple[tuple[NotThisView, ...], ...]
    """For each block, what the others do there and this person may not."""
    cautions: tuple[str, ...]
    """What stops or changes lessons for them, each once."""


@dataclass(frozen=True, slots=True)
class ClassView:
    """A whole class."""

    title: str
    """Day and name, as in the name of its file."""
    day: date
    name: str
    note: str
    minutes: int
    seconds: int
    """What the plan takes."""
    coaches: tuple[str, ...]
    people: tuple[tuple[str, str], ...]
    """Id and name."""
    blocks: tuple[BlockView, ...]
    spare: tuple[BlockView, ...]
    """What to add if time is left."""
    drop: tuple[int, ...]
    """Numbers of blocks to leave out if time runs short, the first first."""
    props: tuple[tuple[str, int], ...]
    """What to lay out for the class: titles and numbers."""
    cautions: tuple[tuple[str, tuple[str, ...]], ...]
    """Person id and what holds for them in this class, each once."""
    language: str
    studio: str
    accent: str
    caution: str
    others: tuple[OtherView, ...] = ()
    """Who else may come; a class screen holds them, a card doesn't."""
