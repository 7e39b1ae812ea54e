"""Furniture: what stands still while a body moves, placed where the body uses it."""

from collections.abc import Iterable

from builder.sums.skeleton import SIDES, Skeleton, reach
from builder.sums.solid import Box, Solid
from builder.sums.space import STILL, Vector, add, apply, dot, scale, turn_z
from builder.sums.spots import CHAIR_BACK, CHAIR_BACK_BEHIND, SEAT_HEIGHT, seat_ahead, seat_beside

_WALL_HALVES = (0.008, 0.26)
_OVER_HEAD = 0.14
"""How far a wall is drawn over the highest joint; the head is higher than the neck."""


def find_mat(bodies: Iterable[Skeleton]) -> Box:
    """Return a mat under a body, however it moves."""
    across = [
        middle[0]
        for body in bodies
        for middle in (body.head.middle, *(ball.middle for ball in body.points.values()))
    ]
    low, high = min(across), max(across)
    halves = (high - low) / 2 + 0.08, 0.18, 0.004
    return Box(((low + high) / 2, 0.0, -halves[2]), STILL, halves)


def _chair_at(body: Skeleton, spot: Vector, way: float) -> tuple[Solid, ...]:
    """Put a chair at a spot; it faces as the body does, or towards it where ``way`` is -1."""
    axes = turn_z(body.facing)

    def box(ahead: float, aside: float, height: float, halves: Vector) -> Box:
        offset = apply(axes, (ahead * way, aside, 0.0))
        return Box(add((spot[0], spot[1], height), offset), axes, halves)

    solids = [box(0.0, 0.0, SEAT_HEIGHT - 0.011, (0.125, 0.125, 0.011))]
    for aside in (-0.114, 0.114):
        low, high = SEAT_HEIGHT - 0.022, CHAIR_BACK
        solids.append(box(0.114, aside, low / 2, (0.009, 0.009, low / 2)))
        solids.append(box(-CHAIR_BACK_BEHIND, aside, high / 2, (0.009, 0.009, high / 2)))
    return (*solids, box(-CHAIR_BACK_BEHIND, 0.0, 0.45, (0.008, 0.105, 0.04)))


def stand_chair_under(body: Skeleton) -> tuple[Solid, ...]:
    """Stand a chair under who sits on it."""
    ahead = turn_z(body.facing)[0]
    return _chair_at(body, add(body.trunk[1].middle, scale(ahead, 0.03)), 1.0)


def stand_chair_ahead(body: Skeleton) -> tuple[Solid, ...]:
    """Stand a chair ahead, its seat in reach, facing the body."""
    return _chair_at(body, seat_ahead(body, 0.0), -1.0)


def stand_chair_step_ahead(body: Skeleton) -> tuple[Solid, ...]:
    """Stand a chair a step farther ahead."""
    spot = add(seat_ahead(body, 0.0), scale(turn_z(body.facing)[0], 0.12))
    return _chair_at(body, spot, -1.0)


def stand_chair_behind(body: Skeleton) -> tuple[Solid, ...]:
    """Stand a chair right behind the heels."""
    ahead = turn_z(body.facing)[0]
    heel = min(dot(body.at(f"{side}-heel"), ahead) for side in SIDES)
    return _chair_at(body, scale(ahead, heel - 0.16), 1.0)


def stand_chair_beside(body: Skeleton, side: str) -> tuple[Solid, ...]:
    """Stand a chair at one side of a body."""
    return _chair_at(body, seat_beside(body, side), 1.0)


def stand_wall(body: Skeleton, sign: float) -> tuple[Solid, ...]:
    """Stand a wall right before, or with -1 right behind, whatever reaches farthest."""
    axes = turn_z(body.facing)
    way = scale(axes[0], sign)
    ends = [dot(ball.middle, way) + ball.radius for ball in body.points.values()]
    far = max(*ends, *(dot(piece.middle, way) + reach(piece, way) for piece in body.trunk))
    thick, broad = _WALL_HALVES
    top = max(ball.middle[2] for ball in body.points.values()) + _OVER_HEAD
    x, y, _ = scale(way, far + thick)
    return (Box((x, y, top / 2), axes, (thick, broad, top / 2)),)
