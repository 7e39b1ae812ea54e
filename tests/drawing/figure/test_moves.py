"""Arrows: one for what moves far enough, one for where the breath is seen to go."""

import math
from dataclasses import replace

import pytest

from builder.course.figure import BreathPlace, View
from builder.course.pose import Arm, Leg, Lie, Spine
from builder.drawing.figure.arrow import Arrow, outline_arrow
from builder.drawing.figure.breaths import find_breaths
from builder.drawing.figure.moves import find_moves
from builder.drawing.figure.stage import build_stage, list_points, look_at, set_scenes
from builder.sums.body import PALM_RADIUS
from builder.sums.skeleton import SIDES

CAMERA = look_at(View.SIDE, 100)


def test_nothing_that_stays_gets_an_arrow(make_figure) -> None:
    inhale, exhale = set_scenes(make_figure("dead-bug"))
    assert find_moves(inhale, exhale, CAMERA) == ()


def test_each_limb_that_moves_gets_one_arrow_the_way_it_goes(make_figure) -> None:
    figure = make_figure(
        "dead-bug",
        left_arm=Arm(lift=150),
        right_leg=Leg(hip=45, knee=40),
    )
    inhale, exhale = set_scenes(figure)
    arrows = find_moves(inhale, exhale, CAMERA)
    assert len(arrows) == 2
    ways = sorted(arrow.end[0] - arrow.start[0] for arrow in arrows)
    assert ways[0] < 0 < ways[1]  # the arm past the head, to the left; the leg away from it


def test_the_way_back_has_the_same_arrows_turned_round(make_figure) -> None:
    inhale, exhale = set_scenes(make_figure("dead-bug", left_arm=Arm(lift=150)))
    (out,), (back,) = find_moves(inhale, exhale, CAMERA), find_moves(exhale, inhale, CAMERA)
    first = [b - a for a, b in zip(out.start, out.end, strict=True)]
    second = [a - b for a, b in zip(back.start, back.end, strict=True)]
    assert first == pytest.approx(second)


def test_a_belly_breath_goes_up_from_who_lies_on_the_back(make_figure) -> None:
    scene, _ = set_scenes(make_figure("back-knees-bent", breath=("belly",)))
    (arrow,) = find_breaths((scene, scene), (BreathPlace.BELLY,), CAMERA, is_in=True)
    assert arrow.end[1] < arrow.start[1]
    (out,) = find_breaths((scene, scene), (BreathPlace.BELLY,), CAMERA, is_in=False)
    assert (out.start, out.end) == (arrow.end, arrow.start)


def test_a_breath_starts_beyond_a_hand_that_lies_on_it(make_figure) -> None:
    starts = []
    for spot in ("floor", "belly"):
        figure = make_figure("back-knees-bent", breath=("belly",))
        hands = replace(figure.inhale.contacts, hands={"right": spot})
        scene = build_stage(figure).set_scene(replace(figure.inhale, contacts=hands))
        (arrow,) = find_breaths((scene, scene), (BreathPlace.BELLY,), CAMERA, is_in=True)
        starts.append(arrow.start[1])
    assert starts[1] < starts[0] - 100 * PALM_RADIUS


def test_a_breath_to_the_sides_is_seen_from_the_front_and_not_from_the_side(make_figure) -> None:
    sides = (BreathPlace.SIDES,)
    from_side, _ = set_scenes(make_figure("standing", breath=("sides",)))
    assert find_breaths((from_side, from_side), sides, CAMERA, is_in=True) == ()
    above, _ = set_scenes(make_figure("back-knees-bent", breath=("sides",)))
    arrows = find_breaths((above, above), sides, look_at(View.ABOVE, 100), is_in=True)
    assert len(arrows) == 2


@pytest.mark.parametrize("place", ["left", "right"])
def test_a_breath_to_one_side_has_one_arrow_on_that_side(make_figure, place: str) -> None:
    camera = look_at(View.ABOVE, 100)
    scene, _ = set_scenes(make_figure("back-knees-bent", breath=(place,)))
    (arrow,) = find_breaths((scene, scene), (BreathPlace(place),), camera, is_in=True)
    shoulders = {
        side: camera.see(scene.skeleton.at(f"{side}-shoulder"))[1] for side in ("left", "right")
    }
    nearest = min(shoulders, key=lambda side: abs(shoulders[side] - arrow.start[1]))
    assert nearest == place


def test_an_arrow_ends_at_its_tip_and_is_broadest_at_its_head() -> None:
    points = list_points(outline_arrow(Arrow((0, 0), (20, 0)), 2, 6))
    assert max(x for x, _ in points) == pytest.approx(20)
    assert min(x for x, _ in points) == pytest.approx(0)
    assert max(abs(y) for _, y in points) == pytest.approx(3)


def test_a_short_arrow_keeps_part_of_its_shaft() -> None:
    points = list_points(outline_arrow(Arrow((0, 0), (0, 3)), 1, 9))
    heights = sorted({round(y, 6) for _, y in points})
    assert heights[0] == 0
    assert math.isclose(heights[-1], 3)
    assert len(heights) == 3


ROUND, SUNK = Spine(curl=44, tuck=18), Spine(curl=-20, tuck=-16)


@pytest.mark.parametrize(("spine", "is_out"), [(ROUND, True), (SUNK, False)])
def test_a_back_that_rounds_or_sinks_has_its_arrow_over_it(
    make_figure, spine: Spine, is_out: bool
) -> None:
    other = SUNK if is_out else ROUND
    _, before = set_scenes(make_figure("all-fours", spine=other))
    _, after = set_scenes(make_figure("all-fours", spine=spine))
    (arrow,) = find_moves(before, after, CAMERA)
    highest = min(CAMERA.see(piece.middle)[1] for piece in after.skeleton.trunk[:5])
    assert max(arrow.start[1], arrow.end[1]) < highest
    assert (arrow.end[1] < arrow.start[1]) == is_out


def test_a_ball_that_is_lifted_has_an_arrow_beside_the_trunks(make_figure) -> None:
    lie = Lie(lean=40)
    arms = {"left_arm": Arm(lift=120), "right_arm": Arm(lift=120)}
    figure = make_figure("standing", props={"ball": "in-hands"}, lie=lie, **arms)
    arrows = find_moves(*set_scenes(figure), CAMERA)
    assert len(arrows) == 2
    without = make_figure("standing", lie=lie, **arms)
    assert len(find_moves(*set_scenes(without), CAMERA)) == 1


def test_a_breath_on_the_side_away_from_the_viewer_is_not_drawn_over_the_body(make_figure) -> None:
    figure = make_figure("standing", breath=("sides",))
    lie = replace(figure.inhale.pose.lie, facing=-35.0)
    turned = replace(figure.inhale, pose=replace(figure.inhale.pose, lie=lie))
    scene = build_stage(figure).set_scene(turned)
    (arrow,) = find_breaths((scene, scene), (BreathPlace.SIDES,), CAMERA, is_in=True)
    assert arrow.end[0] < arrow.start[0]  # only the right side, which is nearer


def test_breaths_to_the_sides_stand_on_the_trunk_where_arms_leave_no_room(make_figure) -> None:
    camera = look_at(View.ABOVE, 100)
    hands = {"left": "ribs", "right": "ribs"}
    figure = make_figure("back-knees-bent", view=View.ABOVE, breath=("sides",), hands=hands)
    scenes = set_scenes(figure)
    arrows = find_breaths(scenes, (BreathPlace.SIDES,), camera, is_in=True)
    body = scenes[1].skeleton
    low, high = sorted(camera.see(body.at(f"{side}-elbow"))[1] for side in SIDES)
    assert len(arrows) == 2
    assert all(low < end < high for arrow in arrows for end in (arrow.start[1], arrow.end[1]))
    ways = sorted(arrow.end[1] - arrow.start[1] for arrow in arrows)
    assert ways[0] < 0 < ways[1]  # away from each other


def test_a_bowed_arrow_goes_past_its_point() -> None:
    points = list_points(outline_arrow(Arrow((0, 0), (20, 0), past=(10, 8)), 2, 6))
    assert max(y for _, y in points) == pytest.approx(9, abs=0.3)
    assert (20, 0) in points
