"""What a client sheet says, as values. All of it is private.

Markup fields are finished HTML; plain strings are not, and templates escape them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from markupsafe import Markup

from builder.course.figure import Figure
from builder.course.tempo import Tempo
from builder.drawing.trend_scale import TrendLine
from builder.language import Language
from builder.sums.paper import Paper


class SheetForm(StrEnum):
    """How a sheet is set."""

    REGULAR = "regular"
    LARGE = "large"
    """For eyes that need 18 points and more; a layout of its own."""


@dataclass(frozen=True, slots=True)
class Said:
    """Words and the language that they are in; words that are no markup get escaped."""

    words: str | Markup
    language: str


@dataclass(frozen=True, slots=True)
class CautionGroup:
    """Cautions that ask for the same."""

    action: str
    """For a class name."""
    word: str
    cautions: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class WeekBoxes:
    """The days of one lesson in one week, to tick."""

    title: str
    days: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetLesson:
    """One lesson on a sheet."""

    id: str
    number: int
    title: str
    position: Markup
    """In which this person does it."""
    usual: str
    """That its page shows another position than theirs; empty where it doesn't."""
    language: str
    """Of the lesson's own words."""
    untranslated: str
    """That it is in another language than the person's; empty where it isn't."""
    figure: Figure | None
    tempo: Tempo | None
    tempo_text: str
    rate: str
    dose: str
    time: str
    sides: str
    """How the sets are shared out; empty where alike."""
    props: str | Markup
    """What is needed, with stand-ins; may be empty."""
    cues: tuple[Markup, ...]
    ready_when: tuple[Markup, ...]
    stop_if: tuple[Markup, ...]
    thin: str
    """In which weeks it stands under the published least days; empty where in none."""
    weeks: tuple[WeekBoxes, ...]
    version: str
    address: str
    """Of its page, with the version; empty where nobody knows yet."""


@dataclass(frozen=True, slots=True)
class SheetRung:
    """One rung of a tempo ladder."""

    tempo: str
    seconds: str


@dataclass(frozen=True, slots=True)
class SheetTrend:
    """One measure over time."""

    title: str
    """In plain words, for those who don't see the chart."""
    heading: Markup
    unit: str
    lines: tuple[TrendLine, ...]
    sentences: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class SheetView:
    """A whole sheet."""

    language: Language
    person_id: str
    name: str
    goal: str
    period: str
    ask_first: str | Markup
    """What to ask a clinician before any practice; empty where nothing is open."""
    other_language: str
    """That cautions or words are in another language than the person's; empty where none are."""
    own_cautions: tuple[Said, ...]
    cautions: tuple[CautionGroup, ...]
    caution: Said
    """The course's own."""
    lessons: tuple[SheetLesson, ...]
    no_lessons: str
    """Why there are none; empty where there are."""
    with_coach: str | Markup
    """What a coach is to look at first; may be empty."""
    ladder_title: str | Markup
    rungs: tuple[SheetRung, ...]
    trends: tuple[SheetTrend, ...]
    retest: str | Markup
    studio: str
    day: date
    accent: str
    paper: Paper


def list_numbers(numbers: Sequence[int], language: Language) -> str:
    """Write the numbers of some lessons."""
    return ", ".join(language.number(number) for number in numbers)
