"""Practice tracks, read back with Python's own reader: length, level, and where tones begin."""

import wave
from array import array
from io import BytesIO

import pytest
import soundfile  # type: ignore[import-untyped]

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.lesson import Drill
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort, Position
from builder.publishing.tracks import (
    LEAD_MS,
    SAMPLES_PER_SECOND,
    TAIL_MS,
    count_samples,
    has_track,
    name_track,
    render_track,
    write_flac,
    write_wav,
)
from builder.sums.schedule import schedule
from builder.sums.tones import LOUDEST, name_tone

SUPINE = Position("supine", "lying on the back", "supine", 0)
RESTING = Effort("resting", 1.3, "Compendium 2011", "07011")


def drill(tempo: str, dose: Dose | TimedDose) -> Drill:
    return Drill(SUPINE, None if tempo == "natural" else Tempo.parse(tempo), dose, RESTING)


def read(track: bytes) -> "array[int]":
    with wave.open(BytesIO(track)) as sound:
        assert sound.getparams()[:3] == (1, 2, SAMPLES_PER_SECOND)
        samples = array("h", sound.readframes(sound.getnframes()))
        assert len(samples) == sound.getnframes()
    return samples


@pytest.mark.parametrize(
    ("tempo", "dose", "seconds"),
    [
        # Worked by hand, with 5 s before and 3 s after.
        ("4-1-4-1", Dose(3, 10, 60), 420 + 8),
        ("3-0-3-0", Dose(1, 2), 12 + 8),
        ("4.5-0-4.5-0", Dose(2, 2, 10, Sides.EACH), 4 * 18 + 30 + 8),
    ],
)
def test_a_track_is_exact_to_the_sample(tempo: str, dose: Dose, seconds: float) -> None:
    samples = read(write_wav(render_track(drill(tempo, dose))))
    assert len(samples) == count_samples(drill(tempo, dose)) == seconds * SAMPLES_PER_SECOND


def test_tones_begin_where_the_schedule_has_them_and_nowhere_else() -> None:
    tempo, dose = Tempo(4, 4, 4, 1), Dose(2, 2, 10)
    samples = read(write_wav(render_track(drill("4-4-4-1", dose))))
    wanted = [
        (LEAD_MS + event.at_ms) * SAMPLES_PER_SECOND // 1000
        for event in schedule(tempo, dose, 0, 10**9)
        if name_tone(event)
    ]
    window = SAMPLES_PER_SECOND // 10
    loud = [
        index
        for index in range(0, len(samples), window)
        if max(map(abs, samples[index : index + window])) > 600
    ]
    begins = [index for index in loud if index - window not in loud]
    assert begins == wanted
    assert max(map(abs, samples)) <= LOUDEST * 32_767 + 8
    assert set(samples[: LEAD_MS * SAMPLES_PER_SECOND // 1000]) == {0}


def test_the_last_tone_fades_before_the_end() -> None:
    samples = read(write_wav(render_track(drill("3-0-3-0", Dose(1, 1)))))
    assert set(samples[-SAMPLES_PER_SECOND // 2 :]) == {0}
    assert TAIL_MS >= 2200


def test_the_small_form_says_the_same_to_the_sample() -> None:
    samples = render_track(drill("4-1-6-1", Dose(2, 3, 20, Sides.EACH)))
    small = write_flac(samples)
    assert small[:4] == b"fLaC"  # RFC 9639, section 6
    back, rate = soundfile.read(BytesIO(small), dtype="int16")
    assert rate == SAMPLES_PER_SECOND
    assert array("h", back.tobytes()) == samples
    assert len(small) * 10 < len(write_wav(samples))


def test_equal_tempos_and_doses_share_a_file() -> None:
    one, other = drill("4-1-4-1", Dose(2, 6, 30)), drill("4-1-4-1", Dose(2, 6, 30, Sides.ALTERNATE))
    assert name_track(one) == name_track(other) == "4-1-4-1-2x6-rest-30"
    assert render_track(one) == render_track(other)
    assert name_track(drill("4-1-4-1", Dose(2, 6, 30, Sides.EACH))) != name_track(one)


@pytest.mark.parametrize(
    ("tempo", "dose"), [("natural", Dose(2, 6, 30)), ("natural", TimedDose(4))]
)
def test_at_ones_own_pace_there_is_no_track(tempo: str, dose: Dose | TimedDose) -> None:
    assert not has_track(drill(tempo, dose))
    with pytest.raises(ValueError, match="has no track"):
        name_track(drill(tempo, dose))
