"""Tempo strip: widths tell the seconds, words never collide."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from builder.course.tempo import Tempo
from builder.drawing.lettering import measure_text
from builder.drawing.tempo_strip import draw_tempo_strip

SVG = "{http://www.w3.org/2000/svg}"
STEP = re.compile(r"([CH]) ([-0-9. ]+)")

breaths = st.integers(1, 40).map(lambda halves: halves / 2)
holds = st.integers(0, 40).map(lambda halves: halves / 2)
tempos = st.builds(Tempo, breaths, holds, breaths, holds)
widths = st.sampled_from([40, 60, 90, 160, 300])


def read_ends(drawing: str) -> list[float]:
    """Return where the level line starts, and where each phase ends."""
    line = list(ET.fromstring(drawing).iter(f"{SVG}path"))[-1].attrib["d"]  # noqa: S314  # our own
    start = float(line.split()[1])
    return [
        start,
        *(float(numbers.split()[-1 if c == "H" else -2]) for c, numbers in STEP.findall(line)),
    ]


def read_labels(drawing: str) -> list[tuple[float, float, str, float]]:
    root = ET.fromstring(drawing)  # noqa: S314  # our own text
    return [
        (float(t.attrib["y"]), float(t.attrib["x"]), t.text or "", float(t.attrib["font-size"]))
        for t in root.iter(f"{SVG}text")
    ]


@given(tempos, widths)
def test_each_phase_is_as_wide_as_it_is_long(tempo: Tempo, width: float) -> None:
    ends = read_ends(draw_tempo_strip(tempo, width))
    drawn = [end - start for start, end in pairwise(ends)]
    length = ends[-1] - ends[0]
    told = [seconds / tempo.cycle_seconds * length for seconds in tempo.phases if seconds]
    assert drawn == pytest.approx(told, abs=0.02)


@given(tempos, widths)
def test_every_tempo_takes_the_whole_width(tempo: Tempo, width: float) -> None:
    ends, plain = (
        read_ends(draw_tempo_strip(tempo, width)),
        read_ends(draw_tempo_strip(Tempo(4, 1, 4, 1), width)),
    )
    assert (ends[0], ends[-1]) == (plain[0], plain[-1])
    assert ends[0] + ends[-1] == pytest.approx(width, abs=0.02)


@given(tempos, widths)
@example(Tempo(10.5, 10.0, 15.5, 5.5), 40)
def test_no_label_covers_another_or_leaves_the_strip(tempo: Tempo, width: float) -> None:
    by_line: dict[float, list[tuple[float, float]]] = {}
    for y, x, text, size in read_labels(draw_tempo_strip(tempo, width)):
        half = measure_text(text, size) / 2
        by_line.setdefault(y, []).append((x - half, x + half))
    for spans in by_line.values():
        assert spans[0][0] >= -0.02
        assert spans[-1][1] <= width + 0.02
        assert all(mine[1] < following[0] for mine, following in pairwise(spans))


@pytest.mark.parametrize("width", [40, 60, 300])
def test_letters_are_never_under_eight_points(width: float) -> None:
    eight_points = 8 * 25.4 / 72
    labels = read_labels(draw_tempo_strip(Tempo(4, 1, 4, 1), width))
    assert all(size >= eight_points - 0.01 for *_, size in labels)


def test_labels_say_word_and_seconds() -> None:
    labels = read_labels(draw_tempo_strip(Tempo(4, 1, 6, 0.5), 90))
    assert [text for _, _, text, _ in labels] == ["in 4", "pause 1", "out 6", "pause 0.5"]


def test_a_phase_of_no_time_is_left_out() -> None:
    labels = read_labels(draw_tempo_strip(Tempo(4, 0, 6, 0)))
    assert [text for _, _, text, _ in labels] == ["in 4", "out 6"]


def test_the_drawing_says_itself_in_words() -> None:
    drawing = draw_tempo_strip(Tempo(4, 1, 4, 1))
    assert "<title>Tempo 4-1-4-1: in 4, pause 1, out 4, pause 1</title>" in drawing
    said = "breathe in for 4, pause for 1, breathe out for 4, pause for 1."
    assert f"<desc>In seconds: {said}" in drawing


def test_own_pace_shows_no_number() -> None:
    drawing = draw_tempo_strip(None)
    assert [text for _, _, text, _ in read_labels(drawing)] == ["at your own pace"]


@pytest.mark.parametrize(
    ("name", "tempo", "width"),
    [
        ("tempo-4-1-4-1-narrow", "4-1-4-1", 40),
        ("tempo-12-1-6-1-narrow", "12-1-6-1", 40),
        ("tempo-4-4-4-4", "4-4-4-4", 60),
        ("tempo-4-1-6-1-wide", "4-1-6-1", 300),
    ],
)
def test_strips_look_as_agreed(
    golden: Callable[[str, str], None], name: str, tempo: str, width: float
) -> None:
    golden(name, draw_tempo_strip(Tempo.parse(tempo), width))


def test_own_pace_looks_as_agreed(golden: Callable[[str, str], None]) -> None:
    golden("tempo-own-pace", draw_tempo_strip(None))
