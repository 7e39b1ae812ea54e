"""Furniture: mat, chairs and walls stand where a body of 175 cm uses them, and as real ones do.

Sizes in cm: common practice; a seat of 44 cm, a mat of 60 to 65 cm.
"""

import pytest

from builder.course.base_poses import BASE_POSES
from builder.sums.body import HEAD_RADII
from builder.sums.furniture import (
    find_mat,
    stand_chair_ahead,
    stand_chair_behind,
    stand_chair_beside,
    stand_chair_step_ahead,
    stand_chair_under,
    stand_wall,
)
from builder.sums.skeleton import Skeleton, lowest, reach
from builder.sums.solid import Box, Placing
from builder.sums.space import STILL, dot, scale, subtract, turn_z
from builder.sums.spots import SEAT_HEIGHT, find_spot
from tests.sums.at_rest import HEIGHT_CM, reach_out, stand

CHAIRS: dict[str, Placing] = {
    "under": stand_chair_under,
    "ahead": stand_chair_ahead,
    "step-ahead": stand_chair_step_ahead,
    "behind": stand_chair_behind,
    "left": lambda body: stand_chair_beside(body, "left"),
    "right": lambda body: stand_chair_beside(body, "right"),
}
WALLS = [("ahead", 1.0), ("behind", -1.0)]


def boxes(how: str, body: Skeleton) -> list[Box]:
    """Return the boxes of a chair: its seat first, its back last, its legs between."""
    solids = CHAIRS[how](body)
    assert all(isinstance(solid, Box) for solid in solids)
    return [solid for solid in solids if isinstance(solid, Box)]


def bottom(box: Box) -> float:
    return box.middle[2] - box.halves[2]


def top(box: Box) -> float:
    return box.middle[2] + box.halves[2]


@pytest.mark.parametrize("how", CHAIRS)
@pytest.mark.parametrize("facing", [0, 90])
def test_a_chair_has_a_seat_of_44_cm_four_legs_under_it_and_a_back(how: str, facing: int) -> None:
    seat, *legs, back = boxes(how, stand("standing", facing))
    assert (top(seat) * HEIGHT_CM, top(back) * HEIGHT_CM) == pytest.approx((44, 86), abs=1)
    assert [half * 2 * HEIGHT_CM for half in seat.halves] == pytest.approx([44, 44, 4], abs=1)
    assert len(legs) == 4
    corners = set()
    for leg in legs:
        assert bottom(leg) == pytest.approx(0, abs=1e-9)
        assert [half * 2 * HEIGHT_CM for half in leg.halves[:2]] == pytest.approx([3, 3], abs=1)
        gap = subtract(leg.middle, seat.middle)
        corners.add(tuple(dot(gap, axis) > 0 for axis in seat.axes[:2]))
    assert len(corners) == 4
    heights = sorted(map(top, legs))
    assert heights[:2] == pytest.approx([bottom(seat)] * 2)  # the front legs carry the seat
    assert heights[2:] == pytest.approx([heights[3]] * 2)  # the hind ones the back as well
    assert bottom(back) < heights[3] <= top(back) + 0.02


@pytest.mark.parametrize("how", CHAIRS)
@pytest.mark.parametrize("base", ["sitting", "half-kneeling", "back-knees-bent"])
def test_no_part_of_a_chair_stands_out_from_under_its_seat(how: str, base: str) -> None:
    seat, *rest = boxes(how, stand(base))
    for part in rest:
        gap = subtract(part.middle, seat.middle)
        for axis, half, whole in zip(seat.axes[:2], part.halves, seat.halves, strict=False):
            assert abs(dot(gap, axis)) + half <= whole + 1e-9


@pytest.mark.parametrize(
    ("how", "is_behind"),
    [("under", True), ("behind", True), ("left", True), ("ahead", False), ("step-ahead", False)],
)
def test_a_chair_faces_as_its_body_does_unless_it_stands_ahead(how: str, is_behind: bool) -> None:
    body = stand("standing", 90)
    seat, *_, back = boxes(how, body)
    ahead = turn_z(body.facing)[0]
    assert (dot(subtract(back.middle, seat.middle), ahead) < -0.1) == is_behind
    assert (dot(subtract(back.middle, seat.middle), ahead) > 0.1) != is_behind


@pytest.mark.parametrize("facing", [0, 90])
def test_who_sits_is_on_the_seat_behind_its_middle_and_before_its_back(facing: int) -> None:
    body = stand("sitting", facing)
    seat, *_, back = boxes("under", body)
    ahead, left, _ = turn_z(body.facing)
    pelvis = body.trunk[1]
    gap = subtract(pelvis.middle, seat.middle)
    assert -seat.halves[0] < dot(gap, ahead) < -0.02
    assert dot(gap, left) == pytest.approx(0, abs=1e-9)
    hind = min(dot(piece.middle, ahead) - reach(piece, ahead) for piece in body.trunk[:3])
    assert hind > dot(back.middle, ahead) + back.halves[0]
    assert min(lowest(piece) for piece in body.trunk[:3]) == pytest.approx(top(seat))


def test_hands_reach_the_seat_of_the_chair_ahead() -> None:
    body = stand("half-kneeling")
    seat = boxes("ahead", body)[0]
    for side in ("left", "right"):
        (x, y, height), way = find_spot(body, side, "seat", 0.0)
        assert abs(x - seat.middle[0]) < seat.halves[0]
        assert abs(y - seat.middle[1]) < seat.halves[1]
        assert height == pytest.approx(SEAT_HEIGHT)
        assert way == (0.0, 0.0, 1.0)


def test_on_all_fours_the_head_clears_the_chair_ahead() -> None:
    body = stand("all-fours")
    seat = boxes("ahead", body)[0]
    nose = body.head.middle[0] + HEAD_RADII[0]
    assert seat.middle[0] - seat.halves[0] > nose


@pytest.mark.parametrize("how", ["ahead", "step-ahead"])
def test_arms_in_the_air_push_no_chair_away(how: str) -> None:
    hanging, lifted = (boxes(how, reach_out("standing", lift))[0] for lift in (4, 90))
    assert lifted.middle == pytest.approx(hanging.middle)


def test_a_chair_a_step_ahead_is_a_short_step_further_away() -> None:
    body = stand("standing")
    near, far = (boxes(how, body)[0] for how in ("ahead", "step-ahead"))
    assert near.middle[0] - near.halves[0] > body.at("left-toe")[0]
    assert (far.middle[0] - near.middle[0]) * HEIGHT_CM == pytest.approx(20, abs=5)


@pytest.mark.parametrize("facing", [0, 90])
@pytest.mark.parametrize("base", ["standing", "squat", "hinge"])
def test_a_chair_behind_is_within_ten_cm_of_the_heels(base: str, facing: int) -> None:
    body = stand(base, facing)
    seat = boxes("behind", body)[0]
    ahead = turn_z(body.facing)[0]
    front = dot(seat.middle, ahead) + seat.halves[0]
    heel = body.points["left-heel"]
    assert 0 < (dot(heel.middle, ahead) - heel.radius - front) * HEIGHT_CM < 10


@pytest.mark.parametrize(("side", "base"), [("left", "standing"), ("right", "half-kneeling")])
def test_a_hand_reaches_seat_and_back_of_the_chair_at_its_side(side: str, base: str) -> None:
    body = stand(base)
    seat, *_, back = boxes(side, body)
    for place, box in (("seat-beside", seat), ("chair-back", back)):
        (x, y, height), _ = find_spot(body, side, place, 0.0)
        assert abs(x - box.middle[0]) <= box.halves[0] + 1e-9
        assert abs(y - box.middle[1]) < box.halves[1]
        assert top(box) <= height <= top(box) + 0.02


@pytest.mark.parametrize(("side", "sign"), [("left", 1), ("right", -1)])
def test_a_chair_at_a_side_stands_clear_of_the_body(side: str, sign: int) -> None:
    body = stand("standing")
    nearest = min(sign * box.middle[1] - box.halves[1] for box in boxes(side, body))
    hip = body.points[f"{side}-hip"]
    assert 0 < (nearest - sign * hip.middle[1] - hip.radius) * HEIGHT_CM < 15


@pytest.mark.parametrize("base", ["back-legs-long", "side-lying", "all-fours"])
def test_a_mat_lies_on_the_floor_a_hand_longer_than_the_body_at_both_ends(base: str) -> None:
    body = stand(base)
    mat = find_mat((body,))
    assert mat.axes == STILL
    assert top(mat) == pytest.approx(0, abs=1e-9)
    along = [body.head.middle[0], *(ball.middle[0] for ball in body.points.values())]
    ends = mat.middle[0] - mat.halves[0], mat.middle[0] + mat.halves[0]
    beyond = min(along) - ends[0], ends[1] - max(along)
    assert [part * HEIGHT_CM for part in beyond] == pytest.approx([14, 14], abs=1)
    assert abs(mat.middle[1] - body.trunk[0].middle[1]) < 0.02
    assert 60 <= mat.halves[1] * 2 * HEIGHT_CM <= 65
    assert mat.halves[2] * 2 * HEIGHT_CM < 2


def test_a_mat_is_under_a_body_wherever_it_moves() -> None:
    near = stand("back-legs-long")
    far = near.moved((0.5, 0.0, 0.0))
    mats = [find_mat(bodies) for bodies in ((near,), (near, far))]
    starts = [mat.middle[0] - mat.halves[0] for mat in mats]
    assert starts[0] == pytest.approx(starts[1])
    assert mats[1].halves[0] - mats[0].halves[0] == pytest.approx(0.25)


@pytest.mark.parametrize(("how", "sign"), WALLS)
@pytest.mark.parametrize("facing", [0, 90])
@pytest.mark.parametrize("base", ["standing", "back-knees-bent", "sitting", "half-kneeling"])
def test_a_wall_touches_what_reaches_farthest_and_nothing_is_within_it(
    base: str, facing: int, how: str, sign: float
) -> None:
    body = stand(base, facing)
    (wall,) = stand_wall(body, sign)
    assert isinstance(wall, Box)
    way = scale(turn_z(body.facing)[0], sign)
    ends = [dot(ball.middle, way) + ball.radius for ball in body.points.values()]
    ends += [dot(piece.middle, way) + reach(piece, way) for piece in body.trunk]
    assert dot(wall.middle, way) - wall.halves[0] == pytest.approx(max(ends)), how
    assert bottom(wall) == pytest.approx(0)


@pytest.mark.parametrize("base", sorted(BASE_POSES))
def test_a_wall_is_higher_than_any_body_before_it(base: str) -> None:
    body = stand(base)
    (wall,) = stand_wall(body, 1.0)
    assert isinstance(wall, Box)
    crown = body.head.middle[2] + reach(body.head, (0.0, 0.0, 1.0))
    highest = max(crown, *(ball.middle[2] for ball in body.points.values()))
    assert 0 < top(wall) - highest < 0.15
