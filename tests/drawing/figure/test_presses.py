"""Presses: an arrow into what is pressed, where the picture shows it."""

from dataclasses import replace

import pytest

from builder.course.figure import View
from builder.drawing.figure.presses import find_presses
from builder.drawing.figure.stage import look_at, set_scenes

SIDE, ABOVE = look_at(View.SIDE, 100), look_at(View.ABOVE, 100)
ON_BALL = {"left": "pinned-ball", "right": "pinned-ball"}


def press(make_figure, base: str, limbs: tuple[str, ...], **more):
    figure = make_figure(base, **more)
    pressing = replace(figure, exhale=replace(figure.exhale, press=limbs))
    return set_scenes(pressing)[1]


def test_who_presses_nothing_has_no_arrow(make_figure) -> None:
    assert find_presses(press(make_figure, "dead-bug", ()), SIDE) == ()


@pytest.mark.parametrize("limb", ["right-hand", "right-knee"])
def test_hand_and_thigh_press_the_ball_from_either_side(make_figure, limb: str) -> None:
    scene = press(make_figure, "dead-bug", (limb,), hands=ON_BALL, props={"ball": "pinned"})
    (arrow,) = find_presses(scene, SIDE)
    ball = SIDE.see(dict(scene.props)["ball"].middle)
    assert abs(arrow.end[0] - ball[0]) < abs(arrow.start[0] - ball[0])
    is_from_head = arrow.start[0] < arrow.end[0]
    assert is_from_head == (limb == "right-hand")


def test_knees_press_apart_where_there_is_no_ball(make_figure) -> None:
    limbs = ("left-knee", "right-knee")
    scene = press(make_figure, "back-knees-bent", limbs, view=View.ABOVE)
    left, right = find_presses(scene, ABOVE)
    assert left.end[1] < left.start[1]  # the left side is away from the viewer, up in the picture
    assert right.end[1] > right.start[1]
    assert find_presses(scene, SIDE) == ()
