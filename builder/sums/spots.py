"""Spots: places that a palm may lie on, each as a point and the way out of the surface."""

from collections.abc import Callable, Mapping

from builder.sums import body
from builder.sums.skeleton import SIDES, Skeleton, lowest, support
from builder.sums.space import (
    Vector,
    add,
    between,
    distance,
    dot,
    length,
    scale,
    subtract,
    turn_z,
    unit,
)

Spot = tuple[Vector, Vector]

BALL_RADIUS = 0.078
"""A soft ball of about 27 cm for a body of 175 cm; ours."""
SEAT_HEIGHT = 0.252
"""A chair's seat for a body of 175 cm is 44 cm high; common practice."""
_SEAT_AHEAD = 0.15
"""From feet, knees or hands on the floor to the middle of a chair's seat; ours."""
CHAIR_BACK = 0.50
CHAIR_BACK_BEHIND = 0.114
"""How far a chair's back is behind the middle of its seat."""
_BESIDE = (0.14, 0.27)
"""From the hips to the middle of a seat beside them, ahead and aside; ours."""
_ON_FLOOR = 0.06
"""What stands on the floor has its middle no higher; hanging hands have."""
_LEAST_WAY = 1e-6
_HANDS_BEFORE_KNEES = 0.36
"""On all fours, for thighs upright and a long back; ours."""
_STACKED = 2 * body.PALM_RADIUS

_ON_TRUNK: Mapping[str, tuple[int, float, float]] = {
    "belly": (3, 1.0, 0.22),
    "navel": (3, 1.0, 0.5),
    "low-belly": (2, 1.0, 0.22),
    "front-ribs": (5, 1.0, 0.1),
    "chest": (6, 1.0, 0.1),
    "ribs": (4, 0.6, 1.0),
    "waist": (3, 0.35, 1.0),
    "hip-bone": (2, 0.8, 0.9),
    "low-back": (3, -1.0, 0.3),
    "back-ribs": (4, -0.5, 1.0),
}
"""A cross-section, and the way out of it: ahead, to the hand's side."""

_ON_THIGH: Mapping[str, float] = {"upper-thigh": 0.22, "mid-thigh": 0.5}
"""How far from the hip to the knee; in standing no palm gets further."""


def on_trunk(skeleton: Skeleton, side: str, place: str) -> Spot:
    """Return a place on belly, ribs, hips or back, on the hand's own side."""
    index, ahead, aside = _ON_TRUNK[place]
    piece = skeleton.trunk[index]
    way = unit(add(scale(piece.axes[0], ahead), scale(piece.axes[1], SIDES[side] * aside)))
    return add(piece.middle, support(piece, way)), way


def on_thigh(skeleton: Skeleton, side: str) -> Spot:
    """Return a place on the front of the thigh, near the knee."""
    hip, knee = skeleton.at(f"{side}-hip"), skeleton.at(f"{side}-knee")
    chest = skeleton.trunk[5].middle
    along = unit(subtract(knee, hip))
    to_chest = subtract(chest, hip)
    way = unit(subtract(to_chest, scale(along, dot(to_chest, along))))
    return add(between(hip, knee, 0.78), scale(way, body.KNEE_RADIUS + 0.008)), way


def along_thigh(skeleton: Skeleton, side: str, share: float) -> Spot:
    """Return a place on the front of the thigh, a share of the way from hip to knee."""
    hip, knee = skeleton.at(f"{side}-hip"), skeleton.at(f"{side}-knee")
    along = unit(subtract(knee, hip))
    # Ahead where the thigh hangs, up where it is level.
    front = add(skeleton.pelvis[0], skeleton.pelvis[2])
    way = unit(subtract(front, scale(along, dot(front, along))))
    radius = (1 - share) * body.HIP_RADIUS + share * body.KNEE_RADIUS
    return add(between(hip, knee, share), scale(way, radius)), way


def seat_ahead(skeleton: Skeleton, floor: float) -> Vector:
    """Return the spot of the floor under the middle of a chair's seat ahead."""
    ahead = turn_z(skeleton.facing)[0]
    points = [ball.middle for ball in skeleton.points.values()]
    low = [point for point in points if point[2] < floor + _ON_FLOOR]
    if skeleton.head.middle[2] < floor + CHAIR_BACK:  # on all fours the head clears the seat
        low.append(add(skeleton.head.middle, scale(ahead, body.HEAD_RADII[0])))
    front = max((dot(point, ahead) for point in low), default=0.0)
    middle = skeleton.trunk[0].middle
    x, y, _ = add(middle, scale(ahead, front + _SEAT_AHEAD - dot(middle, ahead)))
    return x, y, floor


def seat_beside(skeleton: Skeleton, side: str) -> Vector:
    """Return the spot of a floor at 0 under the middle of a chair's seat at a body's side."""
    ahead, left, _ = turn_z(skeleton.facing)
    x, y, _ = skeleton.trunk[0].middle
    forward, aside = _BESIDE
    return add((x, y, 0.0), scale(ahead, forward), scale(left, SIDES[side] * aside))


def on_seat_beside(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return a place on the seat of a chair at the hand's side, near the body."""
    left = turn_z(skeleton.facing)[1]
    spot = add(seat_beside(skeleton, side), scale(left, -0.08 * SIDES[side]))
    return add(spot, (0.0, 0.0, floor + SEAT_HEIGHT)), (0.0, 0.0, 1.0)


def on_back_beside(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return a place on top of the back of a chair at the hand's side."""
    ahead, left, _ = turn_z(skeleton.facing)
    nearer = scale(left, -0.07 * SIDES[side])
    spot = add(seat_beside(skeleton, side), scale(ahead, -CHAIR_BACK_BEHIND), nearer)
    return add(spot, (0.0, 0.0, floor + CHAIR_BACK)), (0.0, 0.0, 1.0)


def on_seat(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return a place on the seat of a chair ahead, near its front edge."""
    ahead, left, up = turn_z(skeleton.facing)
    offset = add(scale(ahead, -0.06), scale(left, SIDES[side] * 0.085), scale(up, SEAT_HEIGHT))
    return add(seat_ahead(skeleton, floor), offset), up


def pinned_ball(skeleton: Skeleton) -> Vector:
    """Return the middle of a ball on the midline, against the thigh that is nearer to the chest."""
    point, way = _nearer_thigh(skeleton)
    return add(point, scale(way, BALL_RADIUS))


def on_pinned_ball(skeleton: Skeleton, side: str) -> Spot:
    """Return a place on the pinned ball, across from the thighs and to the hand's side."""
    _, out = _nearer_thigh(skeleton)
    left = skeleton.trunk[0].axes[1]
    way = unit(add(scale(out, 0.75), scale(left, 0.6 * SIDES[side])))
    return add(pinned_ball(skeleton), scale(way, BALL_RADIUS)), way


def _nearer_thigh(skeleton: Skeleton) -> Spot:
    """Return the place on the thigh that is nearer to the chest, moved to the midline."""
    chest, seat = skeleton.trunk[5].middle, skeleton.trunk[0]
    spots = [on_thigh(skeleton, side) for side in SIDES]
    point, way = min(spots, key=lambda spot: distance(spot[0], chest))
    across = seat.axes[1]
    aside = dot(subtract(point, seat.middle), across)
    flat = subtract(way, scale(across, dot(way, across)))
    out = unit(flat) if length(flat) > _LEAST_WAY else way
    return subtract(point, scale(across, aside)), out


def under_head(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return a place on the floor below the face, the left hand over the right."""
    x, y, _ = add(skeleton.head.middle, scale(skeleton.head.axes[2], 0.02))
    height = floor + (_STACKED if side == "left" else 0.0)
    return (x, y, height), (0.0, 0.0, 1.0)


def under_forehead(skeleton: Skeleton, side: str, _: float) -> Spot:
    """Return a place right under the forehead, however high; the left hand over the right."""
    x, y, _ = add(skeleton.head.middle, scale(skeleton.head.axes[2], 0.02))
    hands = 1 if side == "left" else 2
    return (x, y, lowest(skeleton.head) - hands * _STACKED), (0.0, 0.0, 1.0)


def under_back(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return a place on the floor below the lowest ribs of who lies on the back."""
    piece = skeleton.trunk[4]
    x, y, _ = add(piece.middle, scale(piece.axes[1], 0.6 * SIDES[side] * piece.radii[1]))
    return (x, y, floor), (0.0, 0.0, 1.0)


def on_floor(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return the spot of the floor below or above the palm."""
    x, y, _ = skeleton.at(f"{side}-palm")
    return (x, y, floor), (0.0, 0.0, 1.0)


def planted(skeleton: Skeleton, side: str, floor: float) -> Spot:
    """Return the place of a hand on all fours: on the floor, a trunk's length before the knees."""
    knee = min((skeleton.at(f"{name}-knee") for name in SIDES), key=lambda point: point[2])
    ahead, left, _ = turn_z(skeleton.facing)
    x, y, _ = skeleton.trunk[0].middle
    forward = dot(knee, ahead) - dot((x, y, 0.0), ahead) + _HANDS_BEFORE_KNEES
    aside = SIDES[side] * body.SHOULDER_JOINT_OFFSET
    point = add((x, y, floor), scale(ahead, forward), scale(left, aside))
    return point, (0.0, 0.0, 1.0)


_ELSEWHERE: Mapping[str, Callable[[Skeleton, str, float], Spot]] = {
    "thigh": lambda skeleton, side, _: on_thigh(skeleton, side),
    "pinned-ball": lambda skeleton, side, _: on_pinned_ball(skeleton, side),
    "under-head": under_head,
    "under-forehead": under_forehead,
    "under-back": under_back,
    "floor": on_floor,
    "seat": on_seat,
    "seat-beside": on_seat_beside,
    "chair-back": on_back_beside,
    "planted": planted,
}
CHAIR_PLACES = frozenset({"seat", "seat-beside", "chair-back"})
HAND_PLACES = (*_ON_TRUNK, *_ON_THIGH, *_ELSEWHERE)
"""Where a figure's hand may lie."""


def find_spot(skeleton: Skeleton, side: str, place: str, floor: float) -> Spot:
    """Return the spot of a named place; ``floor`` is the floor's height under this body."""
    if place in _ON_TRUNK:
        return on_trunk(skeleton, side, place)
    if place in _ON_THIGH:
        return along_thigh(skeleton, side, _ON_THIGH[place])
    return _ELSEWHERE[place](skeleton, side, floor)
