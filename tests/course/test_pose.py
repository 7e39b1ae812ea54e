"""Poses: blended angle by angle, mirrored by changing sides."""

from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.pose import Arm, Leg, Lie, Pose, Spine, blend
from tests.random_poses import poses


def angles(pose: Pose) -> list[float]:
    return [angle for part in astuple(pose) for angle in part]


@given(poses, poses)
def test_a_blend_begins_at_one_pose_and_ends_at_the_other(start: Pose, end: Pose) -> None:
    assert blend(start, end, 0) == start
    assert blend(start, end, 1) == end


@given(poses, poses, st.floats(0, 1))
def test_no_angle_of_a_blend_leaves_the_span_between_its_ends(
    start: Pose, end: Pose, share: float
) -> None:
    for first, mixed, last in zip(
        angles(start), angles(blend(start, end, share)), angles(end), strict=True
    ):
        assert min(first, last) - 1e-9 <= mixed <= max(first, last) + 1e-9


def test_halfway_every_angle_is_halfway() -> None:
    bent = Pose(lie=Lie(lean=-90), left_leg=Leg(hip=90, knee=80), right_arm=Arm(lift=40))
    half = blend(Pose(), bent, 0.5)
    assert half == Pose(lie=Lie(lean=-45), left_leg=Leg(hip=45, knee=40), right_arm=Arm(lift=20))


@given(poses)
def test_mirrored_twice_is_the_same_pose(pose: Pose) -> None:
    assert pose.mirrored().mirrored() == pose


def test_a_mirror_changes_sides_and_turns_the_other_way() -> None:
    pose = Pose(
        lie=Lie(lean=-90, spin=30),
        spine=Spine(turn=20, look=-10, curl=5),
        left_arm=Arm(lift=90),
        right_leg=Leg(hip=45),
    )
    assert pose.mirrored() == Pose(
        lie=Lie(lean=-90, spin=-30),
        spine=Spine(turn=-20, look=10, curl=5),
        right_arm=Arm(lift=90),
        left_leg=Leg(hip=45),
    )


@pytest.mark.parametrize("share", [0.25, 0.75])
def test_a_pose_blended_with_itself_stays(share: float) -> None:
    pose = Pose(left_leg=Leg(hip=64, knee=32))
    assert blend(pose, pose, share) == pose
