"""A stage: everything painted is in the window, far parts before near ones."""

from dataclasses import replace

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Stance, View
from builder.course.pose import Arm, Leg, Spine
from builder.drawing.figure.paint import Layer, Tone
from builder.drawing.figure.stage import (
    Window,
    find_window,
    list_points,
    look_at,
    paint_scene,
    set_scenes,
)

NAMES = sorted(BASE_POSES)


@pytest.mark.parametrize("base", NAMES)
@pytest.mark.parametrize("view", list(View))
def test_a_window_holds_every_point_of_a_body(make_figure, base: str, view: View) -> None:
    scenes = set_scenes(make_figure(base, view=view))
    pictures = [paint_scene(scene, look_at(view)) for scene in scenes]
    window = find_window(pictures)
    for part in pictures[0]:
        for x, y in list_points(part.steps):
            assert window.left <= x <= window.right
            assert window.top <= y <= window.bottom


def test_a_standing_body_is_as_tall_as_it_is(make_figure) -> None:
    scenes = set_scenes(make_figure("standing"))
    _, height = find_window(paint_scene(scene, look_at(View.SIDE)) for scene in scenes).size
    assert height == pytest.approx(1, abs=0.06)


def test_windows_grow_around_points_and_by_a_margin() -> None:
    window = Window(0, 0, 2, 1)
    assert window.around([(3, -1)]) == Window(0, -1, 3, 1)
    assert window.around([]) == window
    assert window.wider(0.5).size == (3, 2)


@pytest.mark.parametrize("base", ["standing", "sitting", "kneeling", "hinge"])
def test_from_the_side_the_far_limbs_come_first_and_are_lighter(make_figure, base: str) -> None:
    scene, _ = set_scenes(make_figure(base))
    parts = paint_scene(scene, look_at(View.SIDE))
    names = [part.name for part in parts]
    tones = {part.name: part.tone for part in parts}
    for limb in ("arm", "leg"):
        assert names.index(f"left-{limb}") < names.index("trunk")
        assert (tones[f"left-{limb}"], tones[f"right-{limb}"]) == (Tone.FAR, Tone.NEAR)
    assert names.index("trunk") < names.index("right-arm")


def test_parts_come_in_the_order_of_their_layers(make_figure) -> None:
    scene, _ = set_scenes(make_figure("dead-bug", props={"mat": "under", "ball": "on-belly"}))
    layers = [part.layer for part in paint_scene(scene, look_at(View.SIDE))]
    assert layers == sorted(layers)
    assert layers[0] == Layer.GROUND


def test_a_band_is_drawn_over_the_limbs_that_it_holds(make_figure) -> None:
    scene, _ = set_scenes(make_figure("dead-bug", props={"loop-band": "round-shins"}))
    parts = paint_scene(scene, look_at(View.SIDE))
    assert parts[-1].name == "loop-band"
    assert (parts[-1].name, parts[-1].tone) == ("loop-band", Tone.PROP)


@pytest.mark.parametrize(
    ("base", "prop", "how"),
    [
        ("all-fours", "mat", "under"),
        ("all-fours", "towel", "under-knees"),
        ("sitting", "chair", "seat"),
    ],
)
def test_what_stands_in_the_room_stays_while_the_body_moves(
    make_figure, base: str, prop: str, how: str
) -> None:
    figure = make_figure(
        base, props={prop: how}, right_leg=Leg(hip=40, knee=10), spine=Spine(tuck=9)
    )
    inhale, exhale = set_scenes(figure)
    assert inhale.props == exhale.props
    assert inhale.skeleton != exhale.skeleton


def test_a_ball_in_the_hands_goes_with_them(make_figure) -> None:
    figure = make_figure("standing", props={"ball": "in-hands"}, left_arm=Arm(lift=90))
    (inhale,), (exhale,) = (scene.props for scene in set_scenes(figure))
    assert inhale != exhale


def test_a_mat_is_under_the_body_in_both_pictures(make_figure) -> None:
    figure = make_figure("back-knees-bent", props={"mat": "under"}, left_arm=Arm(lift=178))
    for scene in set_scenes(figure):
        mat = dict(scene.props)["mat"]
        for ball in scene.skeleton.points.values():
            assert abs(ball.middle[0] - mat.middle[0]) <= mat.halves[0]


def test_a_chair_that_only_the_in_breath_uses_stands_where_it_is_used(make_figure) -> None:
    base = BASE_POSES["standing"]
    up = replace(
        make_figure("sitting", props={"chair": "seat"}),
        exhale=Stance("standing", base.pose, base.contacts),
    )
    inhale, exhale = set_scenes(up)
    seated, _ = set_scenes(make_figure("sitting", props={"chair": "seat"}))
    assert inhale.props == exhale.props == seated.props
