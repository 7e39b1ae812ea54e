"""Spots: each lies on the surface that its name says, on the hand's own side."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Leg, Pose
from builder.sums.skeleton import SIDES, build_skeleton, lowest
from builder.sums.space import distance, dot, length, subtract
from builder.sums.spots import BALL_RADIUS, HAND_PLACES, find_spot, pinned_ball
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


@given(poses, st.sampled_from(sorted(ON_TRUNK)), st.sampled_from(sorted(SIDES)))
def test_places_on_the_trunk_lie_on_its_surface(pose: Pose, place: str, side: str) -> None:
    skeleton = build_skeleton(pose)
    point, way = find_spot(skeleton, side, place, 0.0)
    assert length(way) == pytest.approx(1)
    depths = []
    for piece in skeleton.trunk:
        gap = subtract(point, piece.middle)
        parts = zip(piece.axes, piece.radii, strict=True)
        depths.append(sum((dot(axis, gap) / radius) ** 2 for axis, radius in parts))
    assert any(depth == pytest.approx(1) for depth in depths)


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


def test_a_pinned_ball_touches_both_thighs() -> None:
    skeleton = build_skeleton(Pose(left_leg=Leg(hip=90, knee=90), right_leg=Leg(hip=90, knee=90)))
    middle = pinned_ball(skeleton)
    for side in SIDES:
        point, _ = find_spot(skeleton, side, "thigh", 0.0)
        assert distance(middle, point) < 1.4 * BALL_RADIUS
        assert distance(middle, find_spot(skeleton, side, "pinned-ball", 0.0)[0]) == pytest.approx(
            BALL_RADIUS
        )
