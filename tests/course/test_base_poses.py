"""Base poses: one for each position of the trade, each within the range of joints."""

import pytest

from builder.course.base_poses import BASE_POSES
from builder.sums.joint_limits import SOLVED, find_excesses
from builder.sums.rest import bottom, find_gaps, settle
from builder.sums.solids import PLACINGS
from builder.sums.spots import HAND_PLACES

NAMES = sorted(BASE_POSES)
HALF_A_MILLIMETRE = 0.5 / 40
"""Where a body's height is 40 mm on a card, as a part of the height."""
JOINTS_AND_ENDS = ("elbow", "wrist", "palm", "fingers", "thumb", "knee", "ankle", "heel", "toe")


def test_every_position_of_the_trade_has_a_base_pose() -> None:
    lying = {"back-knees-bent", "back-legs-long", "dead-bug", "face-down", "side-lying"}
    low = {"all-fours", "rest-pose", "kneeling", "half-kneeling", "sitting"}
    assert set(BASE_POSES) >= lying | low | {"standing", "squat", "hinge"}


@pytest.mark.parametrize("name", NAMES)
def test_what_should_touch_does_within_half_a_millimetre_on_a_card(name: str) -> None:
    base = BASE_POSES[name]
    assert all(gap <= HALF_A_MILLIMETRE for _, gap in find_gaps(base.pose, base.contacts))


@pytest.mark.parametrize("name", NAMES)
def test_every_knee_and_foot_that_carries_a_body_is_down(name: str) -> None:
    base = BASE_POSES[name]
    _, skeleton = settle(base.pose, base.contacts)
    carrying = [part for part in base.contacts.rests_on if part.endswith(("knee", "foot"))]
    assert all(abs(bottom(skeleton, (part,))) <= HALF_A_MILLIMETRE for part in carrying)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_under_the_floor_and_something_is_on_it(name: str) -> None:
    base = BASE_POSES[name]
    _, skeleton = settle(base.pose, base.contacts)
    limbs = [f"{side}-{part}" for side in ("left", "right") for part in JOINTS_AND_ENDS]
    heights = [bottom(skeleton, (part,)) for part in ("trunk", "head", *limbs)]
    assert min(heights) >= -HALF_A_MILLIMETRE
    assert min(heights) <= HALF_A_MILLIMETRE


@pytest.mark.parametrize("name", NAMES)
def test_no_joint_is_beyond_its_range_before_or_after_it_settles(name: str) -> None:
    base = BASE_POSES[name]
    settled, _ = settle(base.pose, base.contacts)
    assert not list(find_excesses(base.pose))
    assert not [excess for excess in find_excesses(settled) if excess.joint in SOLVED]


@pytest.mark.parametrize("name", NAMES)
def test_hands_and_props_lie_where_hands_and_props_can(name: str) -> None:
    base = BASE_POSES[name]
    assert set(base.contacts.hands.values()) <= set(HAND_PLACES)
    assert all(how in PLACINGS[prop] for prop, how in base.props.items())


@pytest.mark.parametrize("name", NAMES)
def test_the_words_say_a_position_in_lower_case_without_a_full_stop(name: str) -> None:
    words = BASE_POSES[name].words
    assert words == words.lower().strip(" .")
    assert len(words) > 5
