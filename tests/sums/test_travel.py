"""Travel: what a trunk carries along, and what it leaves behind, doesn't move by itself."""

from dataclasses import replace

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Arm, Lie
from builder.sums.skeleton import build_skeleton
from builder.sums.travel import find_travel, measure_travel

STANDING = build_skeleton(BASE_POSES["standing"].pose)


def test_an_arm_that_is_lifted_moves() -> None:
    lifted = build_skeleton(replace(BASE_POSES["standing"].pose, left_arm=Arm(lift=90)))
    assert measure_travel(STANDING, lifted, "left", "palm") > 0.3
    assert measure_travel(STANDING, lifted, "right", "palm") == 0


def test_an_arm_that_goes_with_the_trunk_does_not() -> None:
    elsewhere = STANDING.moved((0.3, 0.0, 0.1))
    assert find_travel(STANDING, elsewhere, "left", "palm") == pytest.approx((0.3, 0.0, 0.1))
    assert measure_travel(STANDING, elsewhere, "left", "palm") == pytest.approx(0, abs=1e-12)


def test_a_foot_that_stays_under_a_moving_trunk_does_not() -> None:
    pose = BASE_POSES["standing"].pose
    leaning = build_skeleton(replace(pose, lie=Lie(lean=20)))
    at = STANDING.at("left-ankle")
    back = tuple(a - b for a, b in zip(at, leaning.at("left-ankle"), strict=True))
    planted = leaning.moved(back)  # type: ignore[arg-type]  # three parts in, three parts out
    assert measure_travel(STANDING, planted, "left", "ankle") == pytest.approx(0, abs=1e-12)
