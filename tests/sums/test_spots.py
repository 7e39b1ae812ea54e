"""Spots: each lies on the surface that its name says, on the hand's own side.

Points worked by hand are parts of the height, from the middle of the hips: hip joints 0.052 aside,
thighs 0.245 long (Drillis and Contini 1966), the floor of who stands 0.530 below.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Arm, Leg, Lie, Pose, Spine
from builder.sums.skeleton import SIDES, build_skeleton, lowest
from builder.sums.space import (
    Vector,
    add,
    apply,
    distance,
    dot,
    length,
    scale,
    subtract,
    turn_z,
    unit,
)
from builder.sums.spots import BALL_RADIUS, HAND_PLACES, find_spot, pinned_ball, seat_ahead
from tests.random_poses import poses

STANDING = build_skeleton(Pose())
DEAD_BUG = build_skeleton(BASE_POSES["dead-bug"].pose)
ON_TRUNK = {
    "belly",
    "navel",
    "low-belly",
    "front-ribs",
    "chest",
    "ribs",
    "waist",
    "hip-bone",
    "low-back",
    "back-ribs",
}


STACKED = {"under-head", "under-forehead"}
"""Where one hand lies over the other."""
CROOKED = Pose(
    lie=Lie(lean=20, spin=15),
    spine=Spine(curl=10, turn=12, nod=10, look=-20),
    left_arm=Arm(lift=30, out=20),
    right_arm=Arm(lift=-10, out=35, elbow=30),
    left_leg=Leg(hip=70, out=12, turn=10, knee=50),
    right_leg=Leg(hip=15, out=5, knee=30),
)
FLOOR = -0.530
LYING = Pose(lie=Lie(lean=90))
SEATED = Pose(left_leg=Leg(hip=90, knee=90), right_leg=Leg(hip=90, knee=90))
KNEELING_ON_HANDS = Pose(
    lie=Lie(lean=90), left_leg=Leg(hip=90, knee=90), right_leg=Leg(hip=90, knee=90)
)
ONE_THIGH_UP = Pose(left_leg=Leg(hip=90, knee=90))
WORKED = [
    (Pose(), "upper-thigh", (0.0518, 0.052, -0.0539)),  # 0.22 of the way, half as thick as there
    (Pose(), "mid-thigh", (0.0465, 0.052, -0.1225)),
    (SEATED, "mid-thigh", (0.1225, 0.052, 0.0465)),
    (SEATED, "thigh", (0.1911, 0.0404, 0.0435)),  # out towards the chest, 0.195 over the hips
    (Pose(), "ribs", (0.0242, 0.0716, 0.145)),
    (Pose(), "under-back", (0.002, 0.0468, FLOOR)),
    (Pose(), "seat", (0.180, 0.085, FLOOR + 0.252)),  # toes end 0.102 ahead of the ankles
    (Pose(), "seat-beside", (0.128, 0.190, FLOOR + 0.252)),
    (LYING, "seat-beside", (0.080, 0.190, FLOOR + 0.252)),  # the seat of a trunk ends 0.06 below
    (Pose(), "chair-back", (0.014, 0.200, FLOOR + 0.500)),
    (LYING, "under-head", (0.425, 0.0, FLOOR + 0.040)),  # the left palm, on the right hand
    (LYING, "under-forehead", (0.425, 0.0, -0.060 - 0.040)),
    (KNEELING_ON_HANDS, "planted", (0.360, 0.0995, FLOOR)),
    (SEATED, "pinned-ball", (0.1911, 0.0487, 0.1824)),
]
"""A pose, a place of the left hand, and where it is by hand."""


@pytest.mark.parametrize(("pose", "place", "point"), WORKED)
def test_places_are_where_they_are_by_hand(pose: Pose, place: str, point: Vector) -> None:
    assert find_spot(build_skeleton(pose), "left", place, FLOOR)[0] == pytest.approx(
        point, abs=0.0002
    )


@pytest.mark.parametrize("place", HAND_PLACES)
@pytest.mark.parametrize("side", SIDES)
def test_a_place_goes_and_turns_with_its_body(place: str, side: str) -> None:
    body = build_skeleton(CROOKED)
    floor = min(ball.middle[2] for ball in body.points.values())
    point, way = find_spot(body, side, place, floor)
    assert length(way) == pytest.approx(1)
    step = (0.3, -0.2, 0.5)
    moved = find_spot(body.moved(step), side, place, floor + step[2])
    assert moved[0] == pytest.approx(add(point, step))
    assert moved[1] == pytest.approx(way)
    turned = build_skeleton(replace(CROOKED, lie=replace(CROOKED.lie, facing=90)))
    there = find_spot(turned, side, place, floor)
    assert there[0] == pytest.approx(apply(turn_z(90), point), abs=1e-9)
    assert there[1] == pytest.approx(apply(turn_z(90), way), abs=1e-9)


@pytest.mark.parametrize("place", sorted({*HAND_PLACES} - STACKED))
@pytest.mark.parametrize(("side", "other"), [("left", "right"), ("right", "left")])
def test_a_mirrored_body_has_mirrored_places(place: str, side: str, other: str) -> None:
    bodies = build_skeleton(CROOKED), build_skeleton(CROOKED.mirrored())
    one, two = (
        find_spot(body, name, place, FLOOR)
        for body, name in zip(bodies, (side, other), strict=True)
    )
    for (x, y, z), image in zip(one, two, strict=True):
        assert image == pytest.approx((x, -y, z), abs=1e-9)


@given(poses, st.sampled_from(sorted(ON_TRUNK)), st.sampled_from(sorted(SIDES)))
def test_places_on_the_trunk_lie_on_its_surface_and_face_out_of_it(
    pose: Pose, place: str, side: str
) -> None:
    skeleton = build_skeleton(pose)
    point, way = find_spot(skeleton, side, place, 0.0)
    depths = {}
    for piece in skeleton.trunk:
        gap = subtract(point, piece.middle)
        steps = [dot(axis, gap) / r for axis, r in zip(piece.axes, piece.radii, strict=True)]
        slopes = (
            scale(axis, step / r)
            for axis, step, r in zip(piece.axes, steps, piece.radii, strict=True)
        )
        depths[sum(step * step for step in steps)] = unit(add(*slopes))
    nearest = min(depths, key=lambda depth: abs(depth - 1))
    assert nearest == pytest.approx(1)
    assert depths[nearest] == pytest.approx(way, abs=1e-6)


@pytest.mark.parametrize("place", sorted(HAND_PLACES))
@pytest.mark.parametrize("side", sorted(SIDES))
def test_a_hand_lies_on_its_own_side_or_in_the_middle(place: str, side: str) -> None:
    (_, aside, _), _ = find_spot(DEAD_BUG, side, place, 0.0)
    assert SIDES[side] * aside >= -1e-9


@pytest.mark.parametrize(
    ("place", "is_ahead"),
    [("belly", True), ("chest", True), ("navel", True), ("low-back", False), ("back-ribs", False)],
)
def test_front_is_in_front_and_back_behind(place: str, is_ahead: bool) -> None:
    _, (ahead, _, _) = find_spot(STANDING, "left", place, 0.0)
    assert (ahead > 0) == is_ahead


@pytest.mark.parametrize("place", ["upper-thigh", "mid-thigh"])
@pytest.mark.parametrize(("base", "axis"), [("standing", 0), ("dead-bug", 2), ("sitting", 2)])
def test_hands_lie_on_the_front_of_the_thigh(place: str, base: str, axis: int) -> None:
    pose = BASE_POSES[base].pose
    skeleton = build_skeleton(pose)
    _, way = find_spot(skeleton, "left", place, 0.0)
    thigh = subtract(skeleton.at("left-knee"), skeleton.at("left-hip"))
    assert dot(way, thigh) == pytest.approx(0, abs=1e-9)
    assert dot(way, skeleton.pelvis[axis]) > 0.8


def test_places_stand_over_each_other_as_on_a_body() -> None:
    heights = [
        find_spot(STANDING, "left", place, 0.0)[0][2]
        for place in (
            "thigh",
            "mid-thigh",
            "upper-thigh",
            "hip-bone",
            "low-belly",
            "belly",
            "waist",
            "ribs",
            "front-ribs",
            "chest",
        )
    ]
    assert heights == sorted(heights)


@pytest.mark.parametrize("place", ["floor", "under-head", "under-back"])
def test_places_on_the_floor_face_up(place: str) -> None:
    (_, _, height), way = find_spot(STANDING, "right", place, -0.5)
    assert height == pytest.approx(-0.5)
    assert way == (0.0, 0.0, 1.0)


def test_under_the_head_the_left_hand_lies_on_the_right() -> None:
    left, right = (find_spot(STANDING, side, "under-head", 0.0)[0][2] for side in ("left", "right"))
    assert left > right
    assert left < lowest(STANDING.head)


def test_under_the_forehead_the_left_hand_lies_on_the_right_and_under_the_head() -> None:
    left, right = (find_spot(STANDING, s, "under-forehead", 0.0)[0][2] for s in ("left", "right"))
    assert left - right == pytest.approx(lowest(STANDING.head) - left)
    assert right < left < lowest(STANDING.head)


@pytest.mark.parametrize("side", SIDES)
def test_a_pinned_ball_is_on_the_midline_and_touches_the_thighs_it_lies_on(side: str) -> None:
    skeleton = build_skeleton(SEATED)
    middle = pinned_ball(skeleton)
    point, _ = find_spot(skeleton, side, "thigh", 0.0)
    assert middle == pytest.approx((0.1911, 0.0, 0.0435 + BALL_RADIUS), abs=0.0002)
    assert distance(middle, point) < 1.2 * BALL_RADIUS
    hand, way = find_spot(skeleton, side, "pinned-ball", 0.0)
    assert subtract(hand, middle) == pytest.approx(scale(way, BALL_RADIUS))


@pytest.mark.parametrize("pose", [ONE_THIGH_UP, ONE_THIGH_UP.mirrored()])
def test_a_ball_is_pinned_against_the_thigh_that_is_up(pose: Pose) -> None:
    middle = pinned_ball(build_skeleton(pose))
    assert middle == pytest.approx((0.1911, 0.0, 0.0435 + BALL_RADIUS), abs=0.0002)


def test_of_two_thighs_the_one_nearer_to_the_chest_pins_the_ball() -> None:
    near, far = Leg(hip=120, knee=90), Leg(hip=80, knee=90)
    both = pinned_ball(build_skeleton(Pose(left_leg=near, right_leg=near)))
    for legs in ((near, far), (far, near)):
        left, right = legs
        one = pinned_ball(build_skeleton(Pose(left_leg=left, right_leg=right)))
        assert one == pytest.approx(both)


def test_between_two_hanging_thighs_a_ball_still_has_its_place() -> None:
    middle = pinned_ball(STANDING)
    hand, way = find_spot(STANDING, "left", "pinned-ball", 0.0)
    assert length(way) == pytest.approx(1)
    assert distance(hand, middle) == pytest.approx(BALL_RADIUS)


def test_a_chair_ahead_stands_before_what_is_on_the_floor() -> None:
    toe = STANDING.at("left-toe")[0]
    assert seat_ahead(STANDING, FLOOR) == pytest.approx((toe + 0.15, 0.0, FLOOR))
    lifted = build_skeleton(Pose(left_arm=Arm(lift=90), right_leg=Leg(hip=60)))
    assert seat_ahead(lifted, FLOOR) == pytest.approx((toe + 0.15, 0.0, FLOOR))


@pytest.mark.parametrize(("floor", "ahead"), [(-0.4, 0.607), (-0.6, 0.15)])
def test_a_head_lower_than_a_chairs_back_keeps_the_chair_away(floor: float, ahead: float) -> None:
    # The head's middle is 0.405 over the hips, its depth 0.104; nothing stands on the floor.
    assert seat_ahead(build_skeleton(LYING), floor) == pytest.approx((ahead, 0.0, floor))
