"""Contacts: bodies come to rest, on the floor or on a seat."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Contacts, Sole
from builder.course.pose import Leg, Lie, Pose, Shape
from builder.sums.rest import bottom, find_gaps, settle
from builder.sums.skeleton import build_skeleton
from builder.sums.space import between
from builder.sums.spots import SEAT_HEIGHT
from tests.random_poses import poses
from tests.sums.at_rest import stand

FEET = ("left-foot", "right-foot")
HALF_A_MILLIMETRE = 0.5 / 40
"""Where a body's height is 40 mm on a card, as a part of the height."""


@given(poses, st.sampled_from([("trunk",), ("trunk", "head"), ("left-knee",), FEET]))
def test_the_lowest_of_what_carries_a_body_is_on_the_floor(
    pose: Pose, parts: tuple[str, ...]
) -> None:
    settled, body = settle(pose, Contacts(rests_on=parts))
    assert bottom(body, parts) == pytest.approx(0, abs=1e-9)
    assert settled == pose


def test_who_sits_is_on_the_seat_with_both_feet_flat() -> None:
    base = BASE_POSES["sitting"]
    _, body = settle(base.pose, base.contacts)
    assert bottom(body, ("seat",)) == pytest.approx(SEAT_HEIGHT)
    for side in ("left", "right"):
        heel, toe = body.points[f"{side}-heel"], body.points[f"{side}-toe"]
        assert heel.middle[2] - heel.radius == pytest.approx(0, abs=1e-4)
        assert toe.middle[2] - toe.radius == pytest.approx(0, abs=1e-4)


@pytest.mark.parametrize("facing", [0, 90])
@pytest.mark.parametrize(
    ("name", "joints"),
    [
        ("standing", ("left-ankle", "right-ankle")),
        ("squat", ("left-ankle", "right-ankle")),
        ("sitting", ("left-ankle", "right-ankle")),
        ("all-fours", ("left-knee", "right-knee")),
        ("rest-pose", ("left-knee", "right-knee")),
        ("back-knees-bent", ("left-hip", "right-hip")),
    ],
)
def test_what_a_body_stands_or_kneels_on_is_over_the_origin(
    name: str, joints: tuple[str, str], facing: float
) -> None:
    body = stand(name, facing)
    x, y, _ = between(body.at(joints[0]), body.at(joints[1]), 0.5)
    assert (x, y) == pytest.approx((0, 0), abs=1e-9)


def test_in_half_kneeling_the_knee_that_is_down_is_under_its_hip() -> None:
    body = stand("half-kneeling")
    assert body.at("right-knee")[0] == pytest.approx(0, abs=1e-9)
    assert body.at("right-hip")[0] == pytest.approx(0, abs=1e-9)


def test_a_seat_is_as_high_as_a_chair_for_a_body_of_175_cm() -> None:
    assert pytest.approx(44, abs=0.5) == SEAT_HEIGHT * 175  # common practice


@given(st.floats(38, 55), st.floats(38, 55))
def test_bent_knees_bring_both_soles_flat_to_the_floor(left: float, right: float) -> None:
    pose = Pose(
        lie=Lie(lean=-90), left_leg=Leg(hip=left, knee=90), right_leg=Leg(hip=right, knee=90)
    )
    contacts = Contacts(soles={"left": Sole.FLAT, "right": Sole.FLAT})
    settled, body = settle(pose, contacts)
    assert (settled.left_leg.hip, settled.right_leg.hip) == (left, right)
    for side in ("left", "right"):
        ends = [body.points[f"{side}-{name}"] for name in ("heel", "toe")]
        assert [ball.middle[2] - ball.radius for ball in ends] == pytest.approx([0, 0], abs=1e-4)


@given(st.floats(0, 40), st.floats(0, 40), st.floats(0, 25))
def test_level_soles_turn_only_the_ankles(lean: float, hip: float, knee: float) -> None:
    legs = {"left": Leg(hip=hip, knee=knee), "right": Leg(hip=30, knee=15)}
    pose = Pose(lie=Lie(lean=lean), left_leg=legs["left"], right_leg=legs["right"])
    settled, body = settle(pose, BASE_POSES["standing"].contacts)
    for side, now in (("left", settled.left_leg), ("right", settled.right_leg)):
        leg = legs[side]
        assert now == replace(leg, ankle=pytest.approx(lean - leg.hip + leg.knee))
        heel, toe = body.points[f"{side}-heel"], body.points[f"{side}-toe"]
        assert heel.middle[2] - heel.radius == pytest.approx(toe.middle[2] - toe.radius, abs=1e-9)


@pytest.mark.parametrize("lean", [60, 75, 90, 105])
def test_all_fours_come_down_on_knees_and_hands_with_thighs_as_they_stood(lean: float) -> None:
    base = BASE_POSES["all-fours"]
    hips = base.pose.left_leg.hip + lean - base.pose.lie.lean
    legs = replace(base.pose.left_leg, hip=hips)
    pose = replace(base.pose, lie=Lie(lean=lean), left_leg=legs, right_leg=legs)
    settled, body = settle(pose, base.contacts)
    assert settled.left_leg.hip - settled.lie.lean == pytest.approx(legs.hip - lean)
    for part in ("left-knee", "right-knee", "left-hand", "right-hand"):
        assert bottom(body, (part,)) == pytest.approx(0, abs=HALF_A_MILLIMETRE)


@pytest.mark.parametrize("facing", [0, 90])
def test_on_all_fours_both_arms_are_straight_down_to_hands_on_the_floor(facing: float) -> None:
    base = BASE_POSES["all-fours"]
    lie = replace(base.pose.lie, facing=facing)
    settled, body = settle(replace(base.pose, lie=lie), base.contacts)
    for side, arm in (("left", settled.left_arm), ("right", settled.right_arm)):
        assert 0 <= arm.elbow < 2
        assert bottom(body, (f"{side}-hand",)) == pytest.approx(0, abs=HALF_A_MILLIMETRE / 2)


def test_a_foot_with_lifted_toes_comes_down_on_its_heel() -> None:
    pose = Pose(lie=Lie(lean=-90), left_leg=Leg(hip=45, knee=60, ankle=20))
    contacts = Contacts(soles={"left": Sole.TOES})
    _, body = settle(pose, contacts)
    heel, toe = body.points["left-heel"], body.points["left-toe"]
    assert heel.middle[2] - heel.radius == pytest.approx(0, abs=1e-4)
    assert toe.middle[2] - toe.radius > 0.01


def test_a_foot_behind_that_cannot_come_down_straightens_its_knee() -> None:
    pose = Pose(left_leg=Leg(hip=-20, knee=30))
    contacts = Contacts(rests_on=("right-foot",), soles={"left": Sole.TOES})
    settled, _ = settle(pose, contacts)
    assert settled.left_leg.knee == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize("name", ["belly", "chest", "ribs", "waist", "hip-bone"])
@pytest.mark.parametrize("base", ["back-knees-bent", "sitting", "standing", "kneeling"])
def test_hands_lie_on_the_trunk_in_every_plain_position(base: str, name: str) -> None:
    pose = BASE_POSES[base]
    contacts = replace(pose.contacts, hands={"left": name, "right": name})
    gaps = dict(find_gaps(pose.pose, contacts))
    assert {"left-hand", "right-hand"} <= set(gaps)
    assert max(gaps.values()) <= HALF_A_MILLIMETRE


def test_elbows_of_who_lies_stay_over_the_floor() -> None:
    base = BASE_POSES["back-knees-bent"]
    _, body = settle(base.pose, replace(base.contacts, hands={"left": "ribs", "right": "belly"}))
    for side in ("left", "right"):
        assert bottom(body, (f"{side}-elbow",)) >= -1e-9


@pytest.mark.parametrize("side", ["left", "right"])
def test_only_the_hand_and_the_foot_that_are_told_go_anywhere(side: str) -> None:
    pose = Pose(lie=Lie(lean=-90), left_leg=Leg(hip=45, knee=80), right_leg=Leg(hip=60, knee=100))
    contacts = Contacts(soles={side: Sole.FLAT}, hands={side: "belly"})
    settled, _ = settle(pose, contacts)
    for part in ("arm", "leg"):
        for name in ("left", "right"):
            before, after = (getattr(each, f"{name}_{part}") for each in (pose, settled))
            assert (before == after) == (name != side)


def test_a_foot_that_cannot_come_down_leaves_its_gap() -> None:
    pose = Pose(lie=Lie(lean=-90), left_leg=Leg(hip=110))
    gaps = dict(find_gaps(pose, Contacts(soles={"left": Sole.FLAT})))
    assert gaps["left-foot"] > 0.1


def test_a_hand_that_cannot_get_there_leaves_its_gap() -> None:
    gaps = dict(find_gaps(Pose(lie=Lie(lean=-90)), Contacts(hands={"right": "thigh"})))
    assert gaps["right-hand"] > HALF_A_MILLIMETRE


@pytest.mark.parametrize("name", sorted(BASE_POSES))
def test_in_every_base_pose_hands_and_feet_touch_what_they_should(name: str) -> None:
    base = BASE_POSES[name]
    gaps = dict(find_gaps(base.pose, base.contacts))
    assert set(gaps) == {
        *(f"{side}-foot" for side in base.contacts.soles),
        *(f"{side}-hand" for side in base.contacts.hands),
    }
    assert all(gap <= HALF_A_MILLIMETRE for gap in gaps.values())


def test_a_full_belly_is_no_part_of_the_seat() -> None:
    body = build_skeleton(Pose(lie=Lie(lean=90), shape=Shape(belly=1)))
    assert bottom(body, ("trunk",)) < bottom(body, ("seat",)) - 0.01


@pytest.mark.parametrize("name", sorted(BASE_POSES))
def test_who_has_settled_stays(name: str) -> None:
    base = BASE_POSES[name]
    pose, body = settle(base.pose, base.contacts)
    _, again = settle(pose, base.contacts)
    for point in body.points:
        assert again.at(point) == pytest.approx(body.at(point), abs=HALF_A_MILLIMETRE)
