"""Tones: gentle, silent at both ends, at the pitch they say, and the browser's own."""

import math
from itertools import pairwise

import pytest

from builder.course.tempo import Step
from builder.sums.schedule import Event, Kind
from builder.sums.tones import FADE_FLOOR, LOUDEST, RISE_SECONDS, TONES, name_tone, render_tone
from tests.browser_scripts.node import run_script

RATE = 8000
FULL_SCALE = 32_767


@pytest.mark.parametrize("name", TONES)
def test_a_tone_is_gentle_and_begins_and_ends_in_silence(name: str) -> None:
    samples = render_tone(TONES[name], RATE)
    assert len(samples) == round(TONES[name].seconds * RATE)
    assert max(abs(samples[0]), abs(samples[-1])) <= 8  # of 32,767
    assert 0.4 * LOUDEST < max(map(abs, samples)) / FULL_SCALE <= LOUDEST + 1e-4
    steps = [abs(later - now) for now, later in pairwise(samples)]
    assert max(steps) < FULL_SCALE * LOUDEST * 2 * math.pi * 400 / RATE  # no click


def test_a_steady_tone_has_its_pitch() -> None:
    """The strongest of a row of frequencies, by correlation with a sine and a cosine."""
    samples = render_tone(TONES["hold"], RATE)

    def strength(hertz: float) -> float:
        turns = [2 * math.pi * hertz * index / RATE for index in range(len(samples))]
        sine = sum(s * math.sin(t) for s, t in zip(samples, turns, strict=True))
        cosine = sum(s * math.cos(t) for s, t in zip(samples, turns, strict=True))
        return sine**2 + cosine**2

    assert max(range(300, 401), key=strength) == 349


@pytest.mark.parametrize("name", ["in", "out"])
def test_a_glide_makes_as_many_waves_as_its_middle_pitch(name: str) -> None:
    """Pitch that changes evenly is the mean of both ends on average; zeros on the way up."""
    tone = TONES[name]
    ((start, end),) = tone.notes
    signs = [sample > 0 for sample in render_tone(tone, RATE) if abs(sample) > 1]
    waves = sum(later and not now for now, later in pairwise(signs))
    assert waves == pytest.approx((start + end) / 2 * tone.seconds, abs=3)
    first = sum(later and not now for now, later in pairwise(signs[: len(signs) // 2]))
    assert (first < waves / 2) == (start < end)


def test_a_tone_dies_away_evenly_to_the_ear() -> None:
    """Halfway down, loudness is halfway in decibels: the geometric mean of both ends."""
    samples = render_tone(TONES["hold"], RATE)
    middle = round((RISE_SECONDS + TONES["hold"].seconds) / 2 * RATE)
    around = samples[middle - 12 : middle + 12]  # a wave of 349 Hz at 8,000 samples a second
    assert max(map(abs, around)) / FULL_SCALE == pytest.approx(
        math.sqrt(LOUDEST * FADE_FLOOR), rel=0.1
    )


@pytest.mark.parametrize(
    ("kind", "step", "name"),
    [
        (Kind.PHASE, Step.IN, "in"),
        (Kind.PHASE, Step.OUT, "out"),
        (Kind.PHASE, Step.HOLD, "hold"),
        (Kind.PHASE, Step.PAUSE, ""),
        (Kind.REST, "", "rest"),
        (Kind.END, "", "end"),
        (Kind.SET, "", ""),
    ],
)
def test_what_begins_has_its_tone(kind: Kind, step: str, name: str) -> None:
    event = Event(0, kind, 0, 1, 0, 0, step)
    assert name_tone(event) == name
    code = "return globalThis.tempoleaf.toneOf(given);"
    assert run_script(("tones.js",), code, {"kind": kind, "step": step}) == name


def test_the_browser_has_the_same_tones() -> None:
    theirs = run_script(("tones.js",), "return globalThis.tempoleaf.TONES;", None)
    ours = {
        name: {"notes": [list(note) for note in tone.notes], "seconds": tone.seconds}
        for name, tone in TONES.items()
    }
    assert theirs == ours
