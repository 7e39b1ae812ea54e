"""Band: nobody is led to a count that the course hasn't checked."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.tempo import Tempo
from builder.sums.band import find_band

halves = st.integers(2, 16).map(lambda half: half / 2)
tempos = st.builds(Tempo, halves, st.sampled_from([0.0, 1.0, 4.0]), halves, st.just(1.0))


@pytest.mark.parametrize(
    ("tempo", "ladder", "band"),
    [
        ("4-1-4-1", (), ["2-1-2-1", "3-1-3-1", "4-1-4-1"]),
        ("4-4-4-4", (), ["2-2-2-2", "3-3-3-3", "4-4-4-4"]),
        ("3-1-3-1", (), ["2-1-2-1", "3-1-3-1"]),
        ("2-0-2-0", (), ["2-0-2-0"]),
        (
            "4-1-6-1",
            (12, 13, 14, 15),
            ["4-1-4-1", "4-1-5-1", "4-1-6-1", "4-1-7-1", "5-1-7-1", "5-1-8-1"],
        ),
    ],
)
def test_a_band_goes_from_faster_to_the_lessons_own_or_its_ladders_top(
    tempo: str, ladder: tuple[float, ...], band: list[str]
) -> None:
    assert [str(count) for count in find_band(Tempo.parse(tempo), ladder, 4)] == band


@given(tempos, st.lists(st.integers(4, 20).map(float), max_size=3))
def test_no_count_is_slower_than_what_the_lesson_names(tempo: Tempo, ladder: list[float]) -> None:
    cycles = [count.cycle_seconds for count in find_band(tempo, sorted(ladder), 4)]
    assert max(cycles) == max(tempo.cycle_seconds, *ladder, 0)
    assert tempo.cycle_seconds in cycles
    assert min(cycles) >= min(4, tempo.cycle_seconds)
