"""The tuck's arrow: round the tail, the way the pelvis rolls."""

import math

import pytest

from builder.course.figure import View
from builder.course.pose import Spine
from builder.drawing.figure.stage import look_at, set_scenes
from builder.drawing.figure.tuck import find_tuck

CAMERA = look_at(View.SIDE, 100)


def tuck(make_figure, base: str, degrees: float):
    """Return the arrow of an out-breath that tucks, and both scenes."""
    spine = Spine(tuck=degrees)
    inhale, exhale = set_scenes(make_figure(base, spine=spine))
    return find_tuck(inhale, exhale, CAMERA), find_tuck(exhale, inhale, CAMERA), exhale


@pytest.mark.parametrize("base", ["back-knees-bent", "face-down", "standing", "dead-bug"])
def test_a_tuck_has_its_arrow_and_the_way_back_the_same_turned_round(make_figure, base) -> None:
    out, back, _ = tuck(make_figure, base, 14)
    assert out is not None
    assert back is not None
    assert math.dist(out.start, back.end) < 12  # the hips' own axes roll with the pelvis
    assert math.dist(out.end, back.start) < 12
    assert out.past is not None


def test_a_pelvis_that_hardly_rolls_has_none(make_figure) -> None:
    assert tuck(make_figure, "back-knees-bent", 5)[0] is None


def test_on_the_back_the_arrow_scoops_under_the_tail_to_the_feet(make_figure) -> None:
    out, _, scene = tuck(make_figure, "back-knees-bent", 14)
    seat, foot = (CAMERA.see(scene.skeleton.at(f"left-{name}")) for name in ("hip", "heel"))
    assert out.past[1] > seat[1]
    assert (out.end[0] - out.start[0]) * (foot[0] - seat[0]) > 0
    assert out.end[1] < out.past[1]


def test_upright_the_tail_is_drawn_down_behind(make_figure) -> None:
    out, _, scene = tuck(make_figure, "standing", 14)
    hips = CAMERA.see(scene.skeleton.at("left-hip"))
    assert out.past[0] < hips[0]
    assert out.end[1] > out.start[1]


def test_from_the_front_a_tuck_is_not_seen_and_has_none(make_figure) -> None:
    figure = make_figure("standing", spine=Spine(tuck=14))
    inhale, exhale = set_scenes(figure)
    turned = look_at(View.SIDE, 100)
    assert find_tuck(inhale, exhale, turned) is not None
    above = look_at(View.ABOVE, 100)
    side_lying = set_scenes(make_figure("side-lying", spine=Spine(tuck=14)))
    assert find_tuck(*side_lying, above) is not None
    back = set_scenes(make_figure("back-knees-bent", spine=Spine(tuck=14)))
    assert find_tuck(*back, look_at(View.ABOVE, 100)) is None
