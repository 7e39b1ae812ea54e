"""Props: each lies on, under or between what its placing names."""

import math
from typing import TypeVar

import pytest

from builder.course.base_poses import BASE_POSES
from builder.sums.body import HEAD_RADII
from builder.sums.rest import settle
from builder.sums.skeleton import Skeleton, Slice, lowest, reach
from builder.sums.solid import Box, Solid, Strip
from builder.sums.solids import PLACINGS
from builder.sums.space import distance, dot, length
from builder.sums.spots import SEAT_HEIGHT, find_spot

Kind = TypeVar("Kind", Box, Slice, Strip)
CASES = [(prop, how) for prop, placings in PLACINGS.items() for how in placings]


def stand(name: str) -> Skeleton:
    base = BASE_POSES[name]
    return settle(base.pose, base.contacts)[1]


def numbers(solid: Solid) -> list[float]:
    if isinstance(solid, Strip):
        return [part for point in solid.points for part in point] + [solid.radius]
    sizes = solid.halves if isinstance(solid, Box) else solid.radii
    return [*solid.middle, *sizes, *(part for axis in solid.axes for part in axis)]


@pytest.mark.parametrize("base", sorted(BASE_POSES))
@pytest.mark.parametrize(("prop", "how"), CASES)
def test_every_prop_can_be_laid_in_every_position(base: str, prop: str, how: str) -> None:
    try:
        solids = PLACINGS[prop][how](stand(base))
    except IndexError:
        pytest.fail(f"{prop} {how} has no place in {base}")
    assert solids
    assert all(math.isfinite(number) for solid in solids for number in numbers(solid))


@pytest.mark.parametrize(("prop", "how"), CASES)
def test_boxes_have_upright_axes(prop: str, how: str) -> None:
    for solid in PLACINGS[prop][how](stand("all-fours")):
        if isinstance(solid, Box):
            x, y, z = solid.axes
            assert [length(axis) for axis in solid.axes] == pytest.approx([1, 1, 1])
            assert [dot(x, y), dot(y, z), dot(z, x)] == pytest.approx([0, 0, 0], abs=1e-9)


def only(solids: tuple[Solid, ...], kind: type[Kind]) -> Kind:
    (solid,) = (solid for solid in solids if isinstance(solid, kind))
    return solid


def test_a_mat_is_under_the_whole_body() -> None:
    body = stand("back-legs-long")
    mat = only(PLACINGS["mat"]["under"](body), Box)
    assert mat.middle[2] + mat.halves[2] <= 1e-9
    for ball in body.points.values():
        assert abs(ball.middle[0] - mat.middle[0]) <= mat.halves[0]


def test_a_seat_carries_the_body_at_the_height_at_which_it_sits() -> None:
    body = stand("sitting")
    seats = [s for s in PLACINGS["chair"]["seat"](body) if isinstance(s, Box)]
    tops = [box.middle[2] + box.halves[2] for box in seats]
    assert any(top == pytest.approx(SEAT_HEIGHT) for top in tops)
    assert min(box.middle[2] - box.halves[2] for box in seats) == pytest.approx(0, abs=1e-9)


def test_hands_reach_the_seat_of_the_chair_ahead() -> None:
    body = stand("half-kneeling")
    seat = PLACINGS["chair"]["ahead"](body)[0]
    assert isinstance(seat, Box)
    for side in ("left", "right"):
        (x, y, height), way = find_spot(body, side, "seat", 0.0)
        assert abs(x - seat.middle[0]) < seat.halves[0]
        assert abs(y - seat.middle[1]) < seat.halves[1]
        assert height == pytest.approx(SEAT_HEIGHT)
        assert way == (0.0, 0.0, 1.0)


def test_on_all_fours_the_head_clears_the_chair_ahead() -> None:
    body = stand("all-fours")
    seat = PLACINGS["chair"]["ahead"](body)[0]
    assert isinstance(seat, Box)
    nose = body.head.middle[0] + HEAD_RADII[0]
    assert seat.middle[0] - seat.halves[0] > nose


def test_a_chair_a_step_ahead_is_further_away() -> None:
    body = stand("standing")
    near, far = (PLACINGS["chair"][how](body)[0] for how in ("ahead", "step-ahead"))
    assert isinstance(near, Box)
    assert isinstance(far, Box)
    assert near.middle[0] - near.halves[0] > body.at("left-toe")[0]
    assert far.middle[0] > near.middle[0]


def test_a_towel_under_the_hands_is_on_the_floor_below_them() -> None:
    body = stand("all-fours")
    towel = only(PLACINGS["towel"]["under-hands"](body), Slice)
    assert lowest(towel) == pytest.approx(0)
    for side in ("left", "right"):
        assert abs(body.at(f"{side}-palm")[0] - towel.middle[0]) < towel.radii[0]


def test_a_ball_on_the_belly_touches_it() -> None:
    body = stand("back-knees-bent")
    ball = only(PLACINGS["ball"]["on-belly"](body), Slice)
    belly = body.trunk[3]
    assert distance(ball.middle, belly.middle) == pytest.approx(ball.radii[0] + belly.radii[0])
    assert ball.middle[2] > belly.middle[2]


def test_a_band_goes_round_both_limbs() -> None:
    body = stand("dead-bug")
    band = only(PLACINGS["loop-band"]["round-shins"](body), Strip)
    assert band.is_loop
    for side, point in zip(("left", "right"), (band.points[0], band.points[-1]), strict=True):
        whole = distance(body.at(f"{side}-knee"), body.at(f"{side}-ankle"))
        there = distance(body.at(f"{side}-knee"), point) + distance(point, body.at(f"{side}-ankle"))
        assert there == pytest.approx(whole, abs=0.02)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_strap_goes_from_the_hands_to_the_sole(side: str) -> None:
    body = stand("back-legs-long")
    strap = only(PLACINGS["strap"][f"{side}-foot"](body), Strip)
    heel, toe = body.at(f"{side}-heel"), body.at(f"{side}-toe")
    assert min(distance(point, heel) for point in strap.points) < distance(heel, toe)


def test_in_the_rest_pose_one_pillow_carries_the_seat_and_one_the_chest() -> None:
    body = stand("rest-pose")
    seat, chest = PLACINGS["pillow"]["seat-and-chest"](body)
    assert isinstance(seat, Slice)
    assert isinstance(chest, Slice)
    assert body.at("left-ankle")[2] < seat.middle[2] < body.trunk[0].middle[2]
    assert chest.middle[2] - chest.radii[2] == pytest.approx(0)
    assert chest.middle[2] + chest.radii[2] == pytest.approx(lowest(body.trunk[4]))


@pytest.mark.parametrize(("prop", "how"), [("pillow", "under-head"), ("towel", "under-head")])
def test_what_lies_under_the_head_is_between_it_and_the_floor(prop: str, how: str) -> None:
    body = stand("side-lying")
    cushion = only(PLACINGS[prop][how](body), Slice)
    assert cushion.middle[2] - cushion.radii[2] == pytest.approx(0, abs=1e-9)
    assert cushion.middle[2] < body.head.middle[2]


@pytest.mark.parametrize(("side", "base"), [("left", "standing"), ("right", "half-kneeling")])
def test_a_hand_reaches_seat_and_back_of_the_chair_at_its_side(side: str, base: str) -> None:
    body = stand(base)
    seat, *_, back = PLACINGS["chair"][f"at-{side}"](body)
    assert isinstance(seat, Box)
    assert isinstance(back, Box)
    for place, box in (("seat-beside", seat), ("chair-back", back)):
        (x, y, height), _ = find_spot(body, side, place, 0.0)
        assert abs(x - box.middle[0]) <= box.halves[0] + 1e-9
        assert abs(y - box.middle[1]) < box.halves[1]
        assert height >= box.middle[2]


def test_a_chair_at_a_side_stands_clear_of_the_body() -> None:
    body = stand("standing")
    seats = [s for s in PLACINGS["chair"]["at-left"](body) if isinstance(s, Box)]
    nearest = min(box.middle[1] - box.halves[1] for box in seats)
    assert nearest > body.at("left-hip")[1] + body.points["left-hip"].radius


def test_a_pillow_under_the_belly_reaches_from_the_floor_into_it() -> None:
    body = stand("face-down")
    pillow = only(PLACINGS["pillow"]["under-belly"](body), Slice)
    top = pillow.middle[2] + pillow.radii[2]
    assert pillow.middle[2] - pillow.radii[2] == pytest.approx(0, abs=1e-9)
    assert lowest(body.trunk[3]) <= top < body.trunk[3].middle[2]


def test_two_pillows_lie_under_the_head_and_between_the_shins() -> None:
    body = stand("side-lying")
    head, shins = PLACINGS["pillow"]["head-and-knees"](body)
    assert isinstance(head, Slice)
    assert isinstance(shins, Box)
    assert head.middle[2] < body.head.middle[2]
    assert body.at("right-knee")[2] < shins.middle[2] < body.at("left-knee")[2]


@pytest.mark.parametrize(("how", "sign"), [("ahead", 1), ("behind", -1)])
@pytest.mark.parametrize("base", ["standing", "back-knees-bent", "sitting", "half-kneeling"])
def test_a_wall_touches_what_reaches_farthest_and_nothing_is_within_it(
    base: str, how: str, sign: int
) -> None:
    body = stand(base)
    wall = only(PLACINGS["wall"][how](body), Box)
    face = sign * wall.middle[0] - wall.halves[0]
    ends = [sign * ball.middle[0] + ball.radius for ball in body.points.values()]
    ends += [sign * piece.middle[0] + reach(piece, (1.0, 0.0, 0.0)) for piece in body.trunk]
    assert max(ends) == pytest.approx(face)
    assert wall.middle[2] == pytest.approx(wall.halves[2])


def test_a_timer_is_in_the_hand() -> None:
    body = stand("sitting")
    timer = only(PLACINGS["timer"]["right-hand"](body), Slice)
    assert distance(timer.middle, body.at("right-palm")) < 0.07
