"""Counts next to a slow one: shapes are kept, seconds stay whole, the nearest comes first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.tempo import Tempo
from builder.sums.counts import find_shorter_tempos

halves = st.integers(2, 24).map(lambda half: half / 2)
holds = st.one_of(st.just(0.0), halves)
tempos = st.builds(Tempo, halves, holds, halves, holds)


@pytest.mark.parametrize(
    ("tempo", "under", "shorter"),
    [
        ("4-4-4-4", 16, ["3-3-3-3", "2-2-2-2"]),
        ("4-4-4-4", 12, ["2-2-2-2"]),
        ("4-1-4-1", 10, ["3-1-3-1", "2-1-2-1"]),
        ("4-1-6-1", 11.5, ["4-1-5-1", "4-1-4-1", "3-1-4-1"]),
        ("5.5-0-5.5-0", 10.5, ["5-0-5-0", "4.5-0-4.5-0", "4-0-4-0"]),
        ("2-0-2-0", 16, []),
        ("2-3-2-0", 16, ["2-2-2-0", "2-1-2-0"]),
        ("3-4-2-0", 16, ["3-3-2-0", "3-2-2-0", "2-2-2-0"]),  # of equals the hold gives way first
    ],
)
def test_a_count_keeps_its_shape_when_it_shrinks(
    tempo: str, under: float, shorter: list[str]
) -> None:
    found = find_shorter_tempos(Tempo.parse(tempo), under, least_seconds=0)
    assert [str(other) for other in found[:3]] == shorter


def test_the_least_length_is_still_offered() -> None:
    box = Tempo.parse("4-4-4-4")
    assert [str(other) for other in find_shorter_tempos(box, 16, least_seconds=12)] == ["3-3-3-3"]


@given(tempos, st.floats(4, 40))
def test_every_offer_is_shorter_than_asked_and_nearest_first(tempo: Tempo, under: float) -> None:
    found = find_shorter_tempos(tempo, under, least_seconds=4)
    cycles = [other.cycle_seconds for other in found]
    assert cycles == sorted(set(cycles), reverse=True)
    assert all(4 <= cycle < min(under, tempo.cycle_seconds) for cycle in cycles)


@given(tempos)
def test_an_exhale_as_long_as_the_inhale_stays_so(tempo: Tempo) -> None:
    for other in find_shorter_tempos(tempo, 99, least_seconds=0):
        assert other.is_box or not tempo.is_box
        if tempo.exhale >= tempo.inhale:
            assert other.exhale >= other.inhale
