"""Inverse kinematics: a palm gets to every spot that an arm can get to."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Arm, Lie, Pose
from builder.sums import body
from builder.sums.joint_limits import LIMITS
from builder.sums.reach import place_palm
from builder.sums.skeleton import SIDES, Skeleton, build_skeleton
from builder.sums.space import Vector, add, apply, cross, distance, dot, scale, subtract, unit
from builder.sums.spots import HAND_PLACES, find_spot
from tests.random_poses import poses

HALF_A_MILLIMETRE = 0.5 / 40
"""Where a body's height is 40 mm on a card, as a part of the height."""
sides = st.sampled_from(sorted(SIDES))


def find_palm_normal(skeleton: Skeleton, side: str) -> Vector:
    """Return the way from the palm back through the hand, from where wrist and thumb are."""
    wrist = skeleton.at(f"{side}-wrist")
    up = unit(subtract(wrist, skeleton.at(f"{side}-palm")))
    thumb = subtract(skeleton.at(f"{side}-thumb"), wrist)
    ahead = unit(subtract(thumb, scale(up, dot(thumb, up))))
    return scale(cross(up, ahead), SIDES[side])


def place(pose: Pose, side: str, spot: tuple[Vector, Vector]) -> Skeleton:
    """Return the body of a pose with one palm placed."""
    arm = place_palm(side, build_skeleton(pose), spot)
    return build_skeleton(replace(pose, **{f"{side}_arm": arm}))


@given(poses, sides)
def test_a_palm_reaches_every_spot_where_an_arm_has_put_it_and_faces_it(
    pose: Pose, side: str
) -> None:
    skeleton = build_skeleton(pose)
    normal = find_palm_normal(skeleton, side)
    palm = skeleton.at(f"{side}-palm")
    spot = subtract(palm, scale(normal, body.PALM_RADIUS)), normal
    arm = place_palm(side, skeleton, spot)
    placed = build_skeleton(replace(pose, **{f"{side}_arm": arm}))
    assert distance(placed.at(f"{side}-palm"), palm) <= HALF_A_MILLIMETRE
    limits = LIMITS[f"{side}_arm"]
    if arm.wrist != 0 and all(
        limits[joint].least < getattr(arm, joint) < limits[joint].most
        for joint in ("roll", "wrist")
    ):
        assert dot(find_palm_normal(placed, side), normal) == pytest.approx(1)


@given(poses, sides, st.sampled_from(["belly", "ribs", "chest", "waist"]))
def test_a_palm_reaches_the_front_and_sides_of_its_own_trunk(
    pose: Pose, side: str, name: str
) -> None:
    upright = replace(pose, spine=replace(pose.spine, curl=0, tuck=0))
    point, normal = find_spot(build_skeleton(upright), side, name, 0.0)
    placed = place(upright, side, (point, normal))
    wanted = add(point, scale(normal, body.PALM_RADIUS))
    assert distance(placed.at(f"{side}-palm"), wanted) <= HALF_A_MILLIMETRE


@given(poses, sides)
def test_placing_a_palm_keeps_the_arm_as_long_as_it_is(pose: Pose, side: str) -> None:
    spot = find_spot(build_skeleton(pose), side, "belly", 0.0)
    placed = place(pose, side, spot)
    shoulder, elbow, wrist = (
        placed.at(f"{side}-{name}") for name in ("shoulder", "elbow", "wrist")
    )
    assert distance(shoulder, elbow) == pytest.approx(0.186)
    assert distance(elbow, wrist) == pytest.approx(0.146)


def test_a_spot_out_of_reach_is_reached_for_with_a_long_arm() -> None:
    far = (5.0, 0.12, 0.25), (-1.0, 0.0, 0.0)
    placed = place(Pose(), "left", far)
    shoulder, palm = placed.at("left-shoulder"), placed.at("left-palm")
    assert distance(shoulder, palm) > 0.95 * (0.186 + 0.146 + body.PALM_FROM_WRIST)
    assert unit(subtract(palm, shoulder))[0] > 0.99


def test_a_palm_on_the_belly_lies_flat() -> None:
    skeleton = build_skeleton(Pose())
    point, normal = find_spot(skeleton, "right", "belly", 0.0)
    placed = place(Pose(), "right", (point, normal))
    assert dot(find_palm_normal(placed, "right"), normal) > 0.95


@pytest.mark.parametrize("name", sorted(HAND_PLACES))
def test_mirrored_places_give_mirrored_arms(name: str) -> None:
    skeleton = build_skeleton(BASE_POSES["dead-bug"].pose)
    spots = {side: find_spot(skeleton, side, name, 0.0) for side in SIDES}
    if spots["left"][0][2] != pytest.approx(spots["right"][0][2]):
        pytest.skip("one hand lies over the other")
    left, right = (place_palm(side, skeleton, spots[side]) for side in ("left", "right"))
    for angle in ("lift", "out", "turn", "elbow", "roll", "wrist"):
        assert getattr(left, angle) == pytest.approx(getattr(right, angle), abs=0.01)


def find_elbow_offset(placed: Skeleton, side: str) -> Vector:
    """Return the way from the straight line between shoulder and wrist to the elbow."""
    shoulder, elbow, wrist = (
        placed.at(f"{side}-{name}") for name in ("shoulder", "elbow", "wrist")
    )
    along = unit(subtract(wrist, shoulder))
    arm = subtract(elbow, shoulder)
    return subtract(arm, scale(along, dot(arm, along)))


@pytest.mark.parametrize(("side", "sign"), [("left", 1), ("right", -1)])
def test_an_elbow_points_aside_and_a_little_down(side: str, sign: int) -> None:
    x, y, z = build_skeleton(Pose()).at(f"{side}-shoulder")
    ahead = (x + 0.25, y, z), (1.0, 0.0, 0.0)  # as if leaning on a wall
    _, aside, up = find_elbow_offset(place(Pose(), side, ahead), side)
    assert sign * aside > -up > 0.01


@pytest.mark.parametrize(("side", "sign"), [("left", 1), ("right", -1)])
def test_an_elbow_points_back_where_the_hand_is_at_the_side(side: str, sign: int) -> None:
    x, y, z = build_skeleton(Pose()).at(f"{side}-shoulder")
    aside = (x, y + sign * 0.25, z), (0.0, float(sign), 0.0)
    assert find_elbow_offset(place(Pose(), side, aside), side)[0] < -0.05


LYING = replace(Pose(), lie=Lie(lean=-90))
"""On the back: the elbow points to the floor."""


def find_elbow_bottom(arm: Arm) -> float:
    ball = build_skeleton(replace(LYING, left_arm=arm)).points["left-elbow"]
    return ball.middle[2] - ball.radius


def test_an_elbow_stays_over_the_floor_and_moves_no_more_than_that_needs() -> None:
    skeleton = build_skeleton(LYING)
    spot = find_spot(skeleton, "left", "belly", 0.0)
    free = place_palm("left", skeleton, spot)
    low = find_elbow_bottom(free)
    assert place_palm("left", skeleton, spot, low - 0.001) == free
    lifted = place_palm("left", skeleton, spot, low + 0.001)
    assert find_elbow_bottom(lifted) >= low + 0.001
    raised = build_skeleton(replace(LYING, left_arm=lifted))
    wanted = add(spot[0], scale(spot[1], body.PALM_RADIUS))
    assert distance(raised.at("left-palm"), wanted) <= HALF_A_MILLIMETRE


def test_where_no_elbow_can_stay_over_the_floor_it_is_as_high_as_it_can_be() -> None:
    skeleton = build_skeleton(LYING)
    spot = find_spot(skeleton, "left", "belly", 0.0)
    bottoms = [find_elbow_bottom(place_palm("left", skeleton, spot, floor)) for floor in (-9, 9)]
    assert bottoms[1] > bottoms[0] + 0.02
    last = find_elbow_bottom(place_palm("left", skeleton, spot, bottoms[1] - 1e-9))
    assert last == pytest.approx(bottoms[1])


@pytest.mark.parametrize("side", sorted(SIDES))
def test_a_spot_out_of_reach_is_reached_for_with_a_straight_wrist(side: str) -> None:
    x, y, z = build_skeleton(Pose()).at(f"{side}-shoulder")
    arm = place_palm(side, build_skeleton(Pose()), ((x + 2, y, z), (-1.0, 0.0, 0.0)))
    assert arm.wrist == 0
    assert arm.elbow == pytest.approx(0, abs=0.5)
    assert arm.lift == pytest.approx(90, abs=0.5)


@pytest.mark.parametrize("lean", [0, -90, 60])
def test_a_palm_may_lie_right_where_the_elbow_would_point(lean: float) -> None:
    pose = Pose(lie=Lie(lean=lean))
    skeleton = build_skeleton(pose)
    # Aside, back and down, as elbows point first.
    way = unit(apply(skeleton.chest, (-0.6, 1.0, -0.5)))
    palm = add(skeleton.at("left-shoulder"), scale(way, 0.25))
    normal = scale(way, -1)
    placed = place(pose, "left", (subtract(palm, scale(normal, body.PALM_RADIUS)), normal))
    assert distance(placed.at("left-palm"), palm) <= HALF_A_MILLIMETRE


def test_a_palm_that_cannot_face_its_surface_gets_there_with_a_straight_wrist() -> None:
    shoulder = build_skeleton(Pose()).at("left-shoulder")
    ceiling = add(shoulder, (0.30, 0.05, 0.18)), (0.0, 0.0, -1.0)
    arm = place_palm("left", build_skeleton(Pose()), ceiling)
    assert arm.wrist == 0
    palm = build_skeleton(Pose(left_arm=arm)).at("left-palm")
    assert distance(palm, ceiling[0]) == pytest.approx(body.PALM_RADIUS, abs=HALF_A_MILLIMETRE)
