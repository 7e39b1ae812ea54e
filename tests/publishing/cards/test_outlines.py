"""Outlines: the steps of a path as PDF operators."""

import re
from math import hypot

import pytest

from builder.publishing.cards.outlines import draw_outline

# ISO 32000-1, table 59: m begins a subpath, l draws a line, c a curve, h closes the subpath.


@pytest.mark.parametrize(
    ("steps", "operators"),
    [
        ("M96 197L102 -1.5Z", "96 197 m 102 -1.5 l h"),
        ("M 1 2 C 1 2 3 4 5 6", "1 2 m 1 2 3 4 5 6 c"),
        # An arc without a radius is a line (SVG 1.1, F.6.2): the tips of a small clock's hands.
        ("M105 27L107 27A0 0 0 1 0 107 29Z", "105 27 m 107 27 l 107 29 l h"),
        ("M105 27A0 0 0 1 0 105 27Z", "105 27 m h"),
        ("M 1 2 H 5 V 3", "1 2 m 5 2 l 5 3 l"),
        ("M0 0.5h7m1 0h3m-11 1h1", "0 0.5 m 7 0.5 l 8 0.5 m 11 0.5 l 0 1.5 m 1 1.5 l"),
    ],
)
def test_straight_steps_and_curves_keep_their_numbers(steps: str, operators: str) -> None:
    drawn = draw_outline(steps)
    assert drawn is not None
    assert drawn.decode().split() == operators.split()


@pytest.mark.parametrize(
    "steps",
    [
        *("M0 0q1 1 1 1", "M0 0l1 1", "M0 0L1 2 3 4", "M0 0A4 5 0 0 1 8 0", "M0-1", "M0,1"),
        *("M0 0L1", "M 0 0 L 1e3 4", "M0 0A4 4 0 0 1 8", "M0 0h1 2"),
    ],
)
def test_what_is_not_known_is_not_drawn(steps: str) -> None:
    assert draw_outline(steps) is None


@pytest.mark.parametrize(
    ("steps", "middle", "turned"),
    [
        ("M10 0A10 10 0 0 1 0 10", (0, 0), 1),
        ("M10 0A10 10 0 1 0 0 10", (0, 0), 3),
        ("M10 0A10 10 0 1 1 0 10", (10, 10), 3),
        ("M10 0A10 10 0 0 0 0 10", (10, 10), 1),
        ("M0 0A1 1 0 0 1 8 0", (4, 0), 2),
    ],
)
def test_arcs_go_round_their_middle(steps: str, middle: tuple[int, int], turned: int) -> None:
    # SVG 1.1, 8.3.8: large-arc and sweep flags choose one of four arcs; radii too small are
    # scaled up until they reach.
    drawn = (draw_outline(steps) or b"").decode()
    ends = re.findall(r"(\S+) (\S+) c", drawn)
    start = re.findall(r"(\S+) (\S+) m", drawn)
    radius = hypot(float(start[0][0]) - middle[0], float(start[0][1]) - middle[1])
    assert len(ends) == turned
    for x, y in ends:
        assert hypot(float(x) - middle[0], float(y) - middle[1]) == pytest.approx(radius, abs=0.01)
    *_, (x, y) = ends
    assert [float(x), float(y)] == pytest.approx([float(each) for each in steps.split()[-2:]])
