"""Tones: the soft sounds of a drill, as samples; the browser's `tones.js` has the same ones.

Pitches, lengths and loudness are ours, chosen to be heard without waking anybody.
"""

import math
from array import array
from collections.abc import Mapping
from dataclasses import dataclass

from builder.course.tempo import Step
from builder.sums.schedule import Event, Kind

LOUDEST = 0.16
"""Of full scale, all notes of a tone together."""
RISE_SECONDS = 0.06
FADE_FLOOR = 0.0001
_FULL_SCALE = 32_767


@dataclass(frozen=True, slots=True)
class Tone:
    """Notes that sound together, each with its pitch at the start and at the end in hertz."""

    notes: tuple[tuple[float, float], ...]
    seconds: float


TONES: Mapping[str, Tone] = {
    "in": Tone(((330, 392),), 0.9),
    "hold": Tone(((349, 349),), 0.35),
    "out": Tone(((392, 294),), 1.1),
    "rest": Tone(((294, 262), (196, 196)), 1.4),
    "end": Tone(((262, 262), (330, 330), (392, 392)), 2.2),
}
"""By what begins; a pause has none."""


def name_tone(event: Event) -> str:
    """Return the tone of an event, or nothing."""
    if event.kind is Kind.PHASE:
        return "" if event.step == Step.PAUSE else event.step
    return event.kind if event.kind in {Kind.REST, Kind.END} else ""


def render_tone(tone: Tone, samples_per_second: int) -> "array[int]":
    """Return a tone as 16-bit samples; it begins and ends at silence."""
    count = round(tone.seconds * samples_per_second)
    level = LOUDEST / len(tone.notes)
    return array(
        "h",
        (
            round(_FULL_SCALE * _fade(index / samples_per_second, tone.seconds, level) * wave)
            for index, wave in enumerate(_sum_waves(tone, count, samples_per_second))
        ),
    )


def _sum_waves(tone: Tone, count: int, samples_per_second: int) -> list[float]:
    """Return the waves of all notes, added; a glide is a pitch that changes evenly."""
    waves = [0.0] * count
    for start, end in tone.notes:
        for index in range(count):
            time = index / samples_per_second
            turns = start * time + (end - start) * time * time / (2 * tone.seconds)
            waves[index] += math.sin(2 * math.pi * turns)
    return waves


def _fade(time: float, seconds: float, level: float) -> float:
    """Rise and fall exponentially, as the browser's ramps do."""
    if time < RISE_SECONDS:
        return FADE_FLOOR * math.pow(level / FADE_FLOOR, time / RISE_SECONDS)
    gone = (time - RISE_SECONDS) / (seconds - RISE_SECONDS)
    return level * math.pow(FADE_FLOOR / level, gone)
