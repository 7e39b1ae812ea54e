"""Tempo: how long to breathe in, hold, breathe out and hold."""

import re
from dataclasses import dataclass
from enum import StrEnum

from builder.errors import InvalidValueError

PAUSE_SECONDS = 1.0
"""A hold of up to this long is a pause, not a breath-hold (common practice)."""
LONGEST_PHASE_SECONDS = 60.0
"""No phase of a drill is longer than this; beyond it the number is a slip of the pen."""
NATURAL = "natural"
"""The word for breathing at one's own pace, without a count."""

_NUMBER = re.compile(r"[0-9]+(\.[0-9]+)?")
_OTHER_SIGN = re.compile(r"\s*[:;,/|\u2010-\u2015\u2212]\s*|(?<=\S)\s+(?=\S)")
"""What people write between phases in place of a hyphen: a colon, a comma, a dash, a space."""


class Step(StrEnum):
    """What a person does in a phase, in the fewest words."""

    IN = "in"
    HOLD = "hold"
    OUT = "out"
    PAUSE = "pause"
    """A hold so short that it is no breath-hold."""


@dataclass(frozen=True, slots=True)
class Tempo:
    """The four phases of a breath, each in seconds, in steps of half a second."""

    inhale: float
    hold_in: float
    exhale: float
    hold_out: float

    def __post_init__(self) -> None:
        for name, seconds in zip(PHASES, self.phases, strict=True):
            _check_phase(name, seconds)

    @classmethod
    def parse(cls, text: str) -> "Tempo":
        """Read a tempo such as ``4-1-4-pause``; raise InvalidValueError with the cure."""
        parts = [part.strip() for part in text.split("-")]
        if len(parts) != len(PHASES) or "" in parts:
            raise _unlike_four_phases(text, [part for part in parts if part])
        return cls(*(_read_phase(name, part) for name, part in zip(PHASES, parts, strict=True)))

    @property
    def phases(self) -> tuple[float, float, float, float]:
        """Return inhale, hold, exhale and hold in seconds."""
        return (self.inhale, self.hold_in, self.exhale, self.hold_out)

    @property
    def steps(self) -> tuple[tuple[Step, float], ...]:
        """Return the phases that take time, each as what to do and its seconds."""
        holds = [
            Step.HOLD if hold > PAUSE_SECONDS else Step.PAUSE
            for hold in (self.hold_in, self.hold_out)
        ]
        steps = zip((Step.IN, holds[0], Step.OUT, holds[1]), self.phases, strict=True)
        return tuple((step, seconds) for step, seconds in steps if seconds)

    @property
    def cycle_seconds(self) -> float:
        """Return the length of one breath."""
        return sum(self.phases)

    @property
    def longest_hold_seconds(self) -> float:
        """Return the longer of the two holds."""
        return max(self.hold_in, self.hold_out)

    @property
    def has_breath_hold(self) -> bool:
        """Tell whether a hold is longer than a pause."""
        return self.longest_hold_seconds > PAUSE_SECONDS

    @property
    def is_box(self) -> bool:
        """Tell whether all four phases are equal."""
        return len(set(self.phases)) == 1

    def __str__(self) -> str:
        return "-".join(format_seconds(phase) for phase in self.phases)


PHASES = ("inhale", "hold after the inhale", "exhale", "hold after the exhale")
_BREATHING = ("inhale", "exhale")


def format_seconds(seconds: float) -> str:
    """Write seconds without a needless fraction: 4, 5.5."""
    return f"{seconds:g}"


def _unlike_four_phases(text: str, phases: list[str]) -> InvalidValueError:
    hyphened = _OTHER_SIGN.sub("-", text.strip())
    if hyphened != text.strip() and _is_tempo(hyphened):
        fact = f'tempo "{text}" has other signs than hyphens between its phases'
        return InvalidValueError(fact, f"write {hyphened}")
    cure = "give inhale-hold-exhale-hold in seconds with hyphens, such as 4-1-4-1"
    if len(phases) == len(PHASES):
        return InvalidValueError(f'tempo "{text}" has a hyphen too many', cure)
    number = f"{len(phases)} {'phase' if len(phases) == 1 else 'phases'}"
    return InvalidValueError(f'tempo "{text}" has {number}, not 4', cure)


def _is_tempo(text: str) -> bool:
    try:
        Tempo.parse(text)
    except InvalidValueError:
        return False
    return True


def _read_phase(name: str, text: str) -> float:
    if text == "pause" and name in _BREATHING:
        raise InvalidValueError(f"the {name} can't be a pause", "give its seconds, such as 4")
    if text == "pause":
        return PAUSE_SECONDS
    if not _NUMBER.fullmatch(text):
        raise InvalidValueError(
            f'tempo phase "{text}" is not a number of seconds',
            'give plain seconds, such as 4 or 5.5, or "pause" for 1',
        )
    return float(text)


def _check_phase(name: str, seconds: float) -> None:
    if seconds > LONGEST_PHASE_SECONDS:
        raise InvalidValueError(
            f"the {name} of {format_seconds(seconds)} s is absurdly long",
            f"give at most {format_seconds(LONGEST_PHASE_SECONDS)} s",
        )
    if seconds < 0 or seconds != round(seconds * 2) / 2:
        raise InvalidValueError(
            f"the {name} of {format_seconds(seconds)} s is not in half seconds",
            "give whole or half seconds from 0 up, such as 4 or 5.5",
        )
    if seconds == 0 and name in _BREATHING:
        raise InvalidValueError(f"the {name} takes 0 s", "give it at least half a second")
