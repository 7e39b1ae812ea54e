"""What a page or a card says about a lesson, as values.

Markup fields are finished HTML; plain strings are not, and templates escape them.
"""

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class TempoView:
    """A tempo in figures and words."""

    text: str
    """4-1-4-1."""
    phases: tuple[tuple[str, str], ...]
    """Word and seconds of each phase that takes time."""
    rate: str
    spoken: str


@dataclass(frozen=True, slots=True)
class PropView:
    """A prop with what to use at home."""

    id: str
    title: str
    count: int
    text: str
    stand_in: str


@dataclass(frozen=True, slots=True)
class FaultView:
    """Something to watch for, and what to do about it; the cure is empty where none is named."""

    fault: Markup
    cure: Markup


@dataclass(frozen=True, slots=True)
class NoticeView:
    """A safety notice in its short form."""

    id: str
    title: str
    action: str
    """The action's value, for a class name."""
    action_word: str
    """The action in words: it must read without colour."""
    short: Markup
    adapt: Markup


@dataclass(frozen=True, slots=True)
class LessonName:
    """Another lesson: its id, its title and the address of its page, if it has one."""

    id: str
    title: str
    address: str | None


@dataclass(frozen=True, slots=True)
class MeasureView:
    """What can be recorded, with its unit."""

    title: str
    unit: str
    has_sides: bool


@dataclass(frozen=True, slots=True)
class LessonView:
    """Everything a page or a card says about a lesson."""

    id: str
    title: str
    summary: Markup
    strand_id: str
    strand_title: str
    level: int
    position: str
    tempo: TempoView | None
    tempo_text: str
    """The tempo in figures, or that people breathe at their own pace."""
    dose: str
    time: str
    props: tuple[PropView, ...]
    set_up: tuple[Markup, ...]
    steps: tuple[Markup, ...]
    if_hard: tuple[Markup, ...]
    coach_notes: tuple[Markup, ...]
    """Only for what goes into the coach folder."""
    cue_inhale: Markup | None
    cue_exhale: Markup | None
    watch_for: tuple[FaultView, ...]
    ready_when: tuple[Markup, ...]
    stop_if: tuple[Markup, ...]
    easier: tuple[LessonName, ...]
    harder: tuple[LessonName, ...]
    builds_on: tuple[LessonName, ...]
    builds_into: tuple[LessonName, ...]
    notices: tuple[NoticeView, ...]
    """Strongest first."""
    measures: tuple[MeasureView, ...]
    reviewed: str
    caution: str
    studio: str
    """The studio's name and how to reach it."""
    address: str
    """The lesson's page on the web; empty where nobody knows yet where the site will stand."""
