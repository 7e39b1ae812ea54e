"""Props: each lies on, under or between what its placing names."""

from typing import TypeVar

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Leg, Pose
from builder.sums.body import KNEE_RADIUS
from builder.sums.skeleton import SIDES, Slice, build_skeleton, lowest
from builder.sums.solid import Box, Solid, Strip
from builder.sums.solids import PLACINGS
from builder.sums.space import (
    add,
    between,
    cross,
    distance,
    dot,
    scale,
    subtract,
    unit,
)
from builder.sums.spots import find_spot
from tests.sums.at_rest import HEIGHT_CM, stand

Kind = TypeVar("Kind", Box, Slice, Strip)


def only(solids: tuple[Solid, ...], kind: type[Kind]) -> Kind:
    (solid,) = (solid for solid in solids if isinstance(solid, kind))
    return solid


def test_a_towel_under_the_hands_is_on_the_floor_below_their_heels() -> None:
    body = stand("all-fours")
    towel = only(PLACINGS["towel"]["under-hands"](body), Slice)
    assert lowest(towel) == pytest.approx(0)
    assert towel.middle[1] == pytest.approx(0, abs=1e-9)
    for side in SIDES:
        x, y, _ = body.at(f"{side}-palm")
        assert body.at(f"{side}-wrist")[0] < towel.middle[0] < x
        assert abs(y) < towel.radii[1]


def test_a_towel_under_the_knees_is_on_the_floor_midway_between_them() -> None:
    body = stand("all-fours")
    towel = only(PLACINGS["towel"]["under-knees"](body), Slice)
    left, right = (body.at(f"{side}-knee") for side in SIDES)
    assert towel.middle[:2] == pytest.approx(between(left, right, 0.5)[:2])
    assert lowest(towel) == pytest.approx(0)


@pytest.mark.parametrize(("mirrored", "down"), [(False, "right"), (True, "left")])
def test_in_half_kneeling_the_towel_is_under_the_knee_that_is_down(
    mirrored: bool, down: str
) -> None:
    pose = BASE_POSES["half-kneeling"].pose
    body = build_skeleton(pose.mirrored() if mirrored else pose)
    towel = only(PLACINGS["towel"]["under-knees"](body), Slice)
    assert towel.middle[:2] == pytest.approx(body.at(f"{down}-knee")[:2])


def test_a_ball_on_the_belly_touches_it() -> None:
    body = stand("back-knees-bent")
    ball = only(PLACINGS["ball"]["on-belly"](body), Slice)
    belly = body.trunk[3]
    assert distance(ball.middle, belly.middle) == pytest.approx(ball.radii[0] + belly.radii[0])
    assert ball.middle[2] > belly.middle[2]


def test_a_ball_in_the_hands_is_midway_between_them() -> None:
    body = stand("dead-bug")
    ball = only(PLACINGS["ball"]["in-hands"](body), Slice)
    palms = [body.at(f"{side}-palm") for side in SIDES]
    assert ball.middle == pytest.approx(between(*palms, 0.5))


def test_a_block_on_the_low_back_lies_flat_and_long_across_where_hands_would_lie() -> None:
    body = stand("all-fours")
    block = only(PLACINGS["block"]["on-low-back"](body), Box)
    long, flat, thick = block.axes
    low_back = body.trunk[3]
    assert abs(dot(long, body.pelvis[1])) == pytest.approx(1)
    gap = subtract(block.middle, low_back.middle)
    assert dot(gap, thick) == pytest.approx(-low_back.radii[0] - block.halves[2])  # touches it
    assert block.middle[2] > low_back.middle[2]
    for side in SIDES:
        hand, _ = find_spot(body, side, "low-back", 0.0)
        assert abs(dot(subtract(hand, block.middle), flat)) < block.halves[1] / 2
        assert abs(dot(subtract(hand, block.middle), long)) < block.halves[0]


@pytest.mark.parametrize("base", ["side-lying", "dead-bug", "sitting"])
@pytest.mark.parametrize("prop", ["block", "pillow"])
def test_what_is_between_the_knees_touches_both_lengthwise(prop: str, base: str) -> None:
    body = stand(base)
    box = only(PLACINGS[prop]["between-knees"](body), Box)
    left, right = (body.at(f"{side}-knee") for side in SIDES)
    assert box.middle == pytest.approx(between(left, right, 0.5))
    along, _, across = box.axes
    assert across == pytest.approx(unit(subtract(left, right)))
    assert dot(along, unit(subtract(body.at("left-ankle"), left))) > 0.95
    edge = distance(left, right) / 2 - box.halves[2]  # from the middle of a knee
    assert 0.5 * KNEE_RADIUS < edge <= KNEE_RADIUS


def test_between_knees_that_touch_there_is_still_a_thin_block() -> None:
    body = build_skeleton(Pose(left_leg=Leg(out=-10), right_leg=Leg(out=-10)))
    box = only(PLACINGS["block"]["between-knees"](body), Box)
    assert 0 < box.halves[2] * 2 * HEIGHT_CM < 5


def test_a_pillow_between_the_shins_lies_under_the_knees_and_over_the_ankles() -> None:
    body = stand("side-lying")
    _, shins = PLACINGS["pillow"]["head-and-knees"](body)
    assert isinstance(shins, Box)
    knees, ankles = (
        between(body.at(f"left-{joint}"), body.at(f"right-{joint}"), 0.5)
        for joint in ("knee", "ankle")
    )
    assert 0.3 < distance(knees, shins.middle) / distance(knees, ankles) < 0.5
    assert distance(shins.middle, ankles) < distance(knees, ankles)
    assert body.at("right-knee")[2] < shins.middle[2] < body.at("left-knee")[2]


@pytest.mark.parametrize(
    ("how", "joint", "end", "least", "most"),
    [("round-shins", "knee", "ankle", 0.05, 0.2), ("round-thighs", "hip", "knee", 0.8, 0.95)],
)
def test_a_loop_goes_round_both_legs_near_the_knees(
    how: str, joint: str, end: str, least: float, most: float
) -> None:
    body = stand("dead-bug")
    band = only(PLACINGS["loop-band"][how](body), Strip)
    assert band.is_loop
    across = distance(*band.points)
    for side, point in zip(SIDES, band.points, strict=True):
        start = body.at(f"{side}-{joint}")
        way = subtract(body.at(f"{side}-{end}"), start)
        share = dot(subtract(point, start), way) / dot(way, way)
        assert least < share < most
        leg = add(start, scale(way, share))
        assert 0.5 * KNEE_RADIUS < distance(point, leg) <= KNEE_RADIUS
        other = band.points[1] if side == "left" else band.points[0]
        assert distance(leg, other) < across  # the end is beyond the leg, not before it


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_strap_goes_from_both_hands_to_the_arch_of_the_sole(side: str) -> None:
    body = stand("back-legs-long")
    hands, arch = only(PLACINGS["strap"][f"{side}-foot"](body), Strip).points
    assert hands == pytest.approx(between(body.at("left-palm"), body.at("right-palm"), 0.5))
    heel, toe = body.at(f"{side}-heel"), body.at(f"{side}-toe")
    assert distance(heel, arch) + distance(arch, toe) == pytest.approx(distance(heel, toe))
    assert distance(heel, arch) > distance(arch, toe)


@pytest.mark.parametrize("prop", ["long-band", "strap"])
def test_a_band_between_the_hands_ends_in_them(prop: str) -> None:
    body = stand("squat")
    band = only(PLACINGS[prop]["between-hands"](body), Strip)
    assert band.points == (body.at("left-palm"), body.at("right-palm"))
    assert not band.is_loop


def test_in_the_rest_pose_one_pillow_carries_the_seat_and_one_the_chest() -> None:
    body = stand("rest-pose")
    seat, chest = PLACINGS["pillow"]["seat-and-chest"](body)
    assert isinstance(seat, Slice)
    assert isinstance(chest, Slice)
    heels = between(body.at("left-ankle"), body.at("right-ankle"), 0.5)
    to_pillow, to_seat = (subtract(end, heels) for end in (seat.middle, body.trunk[0].middle))
    assert cross(to_pillow, to_seat) == pytest.approx((0, 0, 0), abs=1e-9)
    assert 0.3 < dot(to_pillow, to_seat) / dot(to_seat, to_seat) < 0.6
    assert chest.middle[2] - chest.radii[2] == pytest.approx(0)
    assert chest.middle[2] + chest.radii[2] == pytest.approx(lowest(body.trunk[4]))
    ends = [chest.middle[0] + sign * chest.radii[0] for sign in (-1, 1)]
    for point in (body.trunk[2].middle, body.trunk[6].middle, body.at("left-palm")):
        assert ends[0] < point[0] < ends[1]
    assert chest.middle[0] < body.head.middle[0]


@pytest.mark.parametrize("prop", ["pillow", "towel"])
@pytest.mark.parametrize("base", ["side-lying", "back-legs-long"])
def test_what_lies_under_the_head_reaches_from_the_floor_to_it(prop: str, base: str) -> None:
    body = stand(base)
    cushion = only(PLACINGS[prop]["under-head"](body), Slice)
    assert cushion.middle[:2] == pytest.approx(body.head.middle[:2])
    assert lowest(cushion) == pytest.approx(0, abs=1e-9)
    top = cushion.middle[2] + cushion.radii[2]
    assert lowest(body.head) < top < body.head.middle[2]


@pytest.mark.parametrize("lifted", [0.0, 0.1])
def test_a_pillow_under_the_belly_reaches_from_the_floor_into_it(lifted: float) -> None:
    body = stand("face-down").moved((0.0, 0.0, lifted))
    pillow = only(PLACINGS["pillow"]["under-belly"](body), Slice)
    assert pillow.middle[:2] == pytest.approx(body.trunk[3].middle[:2])
    top = pillow.middle[2] + pillow.radii[2]
    assert lowest(pillow) == pytest.approx(0, abs=1e-9)
    assert lowest(body.trunk[3]) <= top < body.trunk[3].middle[2]


def test_a_head_on_the_floor_still_has_a_thin_pillow() -> None:
    body = stand("standing").moved((0.0, 0.0, -2.0))
    pillow = only(PLACINGS["pillow"]["under-head"](body), Slice)
    assert 0 < pillow.radii[2] * 2 * HEIGHT_CM < 5


@pytest.mark.parametrize(("side", "sign"), [("left", 1), ("right", -1)])
def test_a_timer_is_between_palm_and_fingers_its_hands_on_the_outer_face(
    side: str, sign: int
) -> None:
    body = stand("sitting")
    dial, knob, long, short = PLACINGS["timer"][f"{side}-hand"](body)
    assert isinstance(dial, Slice)
    assert isinstance(knob, Box)
    held = between(body.at(f"{side}-palm"), body.at(f"{side}-fingers"), 0.5)
    assert dial.middle[:2] == pytest.approx(held[:2])
    assert dial.radii[2] < dial.middle[2] - held[2] < 1.5 * dial.radii[2]  # just over the hand
    assert knob.middle[:2] == pytest.approx(dial.middle[:2])
    top, bottom = dial.middle[2] + dial.radii[2], knob.middle[2] - knob.halves[2]
    assert bottom <= top < knob.middle[2]
    for strip in (long, short):
        assert isinstance(strip, Strip)
        start, end = strip.points
        gap = subtract(start, dial.middle)
        assert dial.radii[1] < sign * gap[1] < 1.5 * dial.radii[1]
        assert (gap[0], gap[2]) == pytest.approx((0, 0), abs=1e-9)
        assert 0.2 * dial.radii[0] < distance(start, end) < dial.radii[0]
        assert end[1] == pytest.approx(start[1])


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_bag_hangs_from_the_hand_by_two_handles(side: str) -> None:
    body = stand("standing")
    first, second, sack = PLACINGS["bag"][f"{side}-hand"](body)
    assert isinstance(first, Strip)
    assert isinstance(second, Strip)
    assert isinstance(sack, Box)
    x, y, z = body.at(f"{side}-palm")
    top = sack.middle[2] + sack.halves[2]
    assert sack.middle[:2] == pytest.approx((x, y))
    assert 5 < (z - top) * HEIGHT_CM < 15
    for handle in (first, second):
        assert handle.points[0] == (x, y, z)
        assert handle.points[1][1:] == pytest.approx((y, top))
    ends = [handle.points[1][0] - x for handle in (first, second)]
    assert ends[0] == pytest.approx(-ends[1])
    assert 0 < abs(ends[0]) < sack.halves[0]
