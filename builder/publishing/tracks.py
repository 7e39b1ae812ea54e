"""Practice tracks: a drill's tones as a sound file, for a phone without the page open."""

import sys
import wave
from array import array
from functools import cache
from io import BytesIO

from builder.course.dose import Dose, Sides
from builder.course.lesson import Drill
from builder.sums.schedule import make_plan, schedule
from builder.sums.tones import TONES, name_tone, render_tone

SAMPLES_PER_SECOND = 8000
"""Over twice the highest pitch, with room; more would only make the files larger."""
LEAD_MS = 5000
"""Time to get into position before the first breath, as in the pacer."""
TAIL_MS = 3000
"""Time for the last tone to fade."""


def has_track(drill: Drill) -> bool:
    """Tell whether there is anything to sound: people at their own pace need no track."""
    return drill.tempo is not None and isinstance(drill.dose, Dose)


def name_track(drill: Drill) -> str:
    """Return the name of a drill's files, without an ending; equal tempos and doses share one."""
    dose = drill.dose
    if not isinstance(dose, Dose) or drill.tempo is None:
        raise ValueError("a drill without a count has no track")
    sides = "" if dose.sides is not Sides.EACH else "-each-side"
    return f"{drill.tempo}-{dose.sets}x{dose.breaths}-rest-{dose.rest_seconds}{sides}"


def count_samples(drill: Drill) -> int:
    """Return how long a track is, to the sample."""
    whole_ms = LEAD_MS + make_plan(drill.tempo, drill.dose).end_ms + TAIL_MS
    return whole_ms * SAMPLES_PER_SECOND // 1000


def render_track(drill: Drill) -> "array[int]":
    """Return a drill as samples of 16 bits: a tone where a phase, rest or end begins."""
    samples = array("h", bytes(2 * count_samples(drill)))
    end_ms = make_plan(drill.tempo, drill.dose).end_ms
    for event in schedule(drill.tempo, drill.dose, 0, end_ms + 1):
        name = name_tone(event)
        if name:
            start = (LEAD_MS + event.at_ms) * SAMPLES_PER_SECOND // 1000
            for index, sample in enumerate(_render(name), start):
                samples[index] += sample
    return samples


def write_wav(samples: "array[int]") -> bytes:
    """Return samples as WAV with one channel, which every player reads."""
    if sys.byteorder == "big":
        samples = array("h", samples)
        samples.byteswap()
    file = BytesIO()
    with wave.open(file, "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(SAMPLES_PER_SECOND)
        sound.writeframes(samples.tobytes())
    return file.getvalue()


def write_flac(samples: "array[int]") -> bytes:
    """Return samples as FLAC (RFC 9639): the same to the sample, in a thirtieth of the bytes."""
    # Loaded here, because it brings NumPy along and most commands write no sound.
    import soundfile  # type: ignore[import-untyped]  # noqa: PLC0415

    file = BytesIO()
    with soundfile.SoundFile(
        file, "w", SAMPLES_PER_SECOND, channels=1, subtype="PCM_16", format="FLAC"
    ) as sound:
        sound.buffer_write(samples, dtype="int16")
    return file.getvalue()


@cache
def _render(name: str) -> "array[int]":
    return render_tone(TONES[name], SAMPLES_PER_SECOND)
