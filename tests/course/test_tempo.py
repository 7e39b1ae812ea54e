"""Tempo: parsing, arithmetic and what it refuses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.tempo import Tempo
from builder.errors import InvalidValueError

halves = st.integers(1, 40).map(lambda number: number / 2)
holds = st.integers(0, 40).map(lambda number: number / 2)


@pytest.mark.parametrize(
    ("text", "cycle", "rate"),
    [
        # 60 / cycle; the ranges they fall in: Russo, Santarelli, O'Rourke 2017 Breathe 13:298.
        ("4-0-4-0", 8, 7.5),
        ("4-1-4-1", 10, 6),
        ("5-0-5-0", 10, 6),
        ("5.5-0-5.5-0", 11, 60 / 11),
        ("4-2-4-2", 12, 5),
        ("4-4-4-4", 16, 3.75),
        ("3-0-6-0", 9, 60 / 9),
    ],
)
def test_cycle_and_rate_follow_from_the_phases(text: str, cycle: float, rate: float) -> None:
    tempo = Tempo.parse(text)
    assert tempo.cycle_seconds == cycle
    assert 60 / tempo.cycle_seconds == pytest.approx(rate)


def test_pause_is_one_second() -> None:
    assert Tempo.parse("4-pause-4-pause") == Tempo(4, 1, 4, 1)


@pytest.mark.parametrize(
    ("text", "fact"),
    [
        ("4-1-4", 'tempo "4-1-4" has 3 phases, not 4'),
        ("4:4:4", 'tempo "4:4:4" has 1 phase, not 4'),
        ("pause-1-4-1", "the inhale can't be a pause"),
        ("4-1-pause-1", "the exhale can't be a pause"),
        ("4-4-4-4-4", 'tempo "4-4-4-4-4" has 5 phases, not 4'),
        ("-4-1-4-1", 'tempo "-4-1-4-1" has a hyphen too many'),
        ("4-1-four-1", 'tempo phase "four" is not a number of seconds'),
        ("4s-1-4-1", 'tempo phase "4s" is not a number of seconds'),
        ("0-1-4-1", "the inhale takes 0 s"),
        ("4-1-0-1", "the exhale takes 0 s"),
        ("4-1-4.2-1", "the exhale of 4.2 s is not in half seconds"),
        ("4-1-400-1", "the exhale of 400 s is absurdly long"),
    ],
)
def test_a_tempo_that_makes_no_sense_is_refused_with_the_fact(text: str, fact: str) -> None:
    with pytest.raises(InvalidValueError) as caught:
        Tempo.parse(text)
    assert caught.value.fact == fact
    assert caught.value.cure


@pytest.mark.parametrize(
    "text", ["4:1:4:1", "4, 1, 4, 1", "4 1 4 1", "4\u20131\u20134\u20131", "4/1/4/1", "4-1-4:1"]
)
def test_a_tempo_written_with_other_signs_is_told_how_to_write_it(text: str) -> None:
    with pytest.raises(InvalidValueError) as caught:
        Tempo.parse(text)
    assert caught.value.fact == f'tempo "{text}" has other signs than hyphens between its phases'
    assert caught.value.cure == "write 4-1-4-1"


@given(halves, holds, halves, holds)
def test_a_written_tempo_reads_back_as_itself(
    inhale: float, hold_in: float, exhale: float, hold_out: float
) -> None:
    tempo = Tempo(inhale, hold_in, exhale, hold_out)
    assert Tempo.parse(str(tempo)) == tempo


@pytest.mark.parametrize(
    ("text", "is_box", "has_hold"),
    [("4-4-4-4", True, True), ("1-1-1-1", True, False), ("4-1-6-1", False, False)],
)
def test_box_and_hold_are_told_apart_from_a_pause(text: str, is_box: bool, has_hold: bool) -> None:
    tempo = Tempo.parse(text)
    assert (tempo.is_box, tempo.has_breath_hold) == (is_box, has_hold)


def test_a_hold_of_a_second_is_called_a_pause() -> None:
    assert [str(step) for step, _ in Tempo(4, 1, 4, 2).steps] == ["in", "pause", "out", "hold"]
    assert [seconds for _, seconds in Tempo(4, 0, 6, 0).steps] == [4, 6]
