"""Travel: how far the ends of limbs go from one picture of a body to another."""

from builder.sums.skeleton import Skeleton
from builder.sums.space import Vector, length, subtract

_ROOTS = {"palm": "shoulder", "ankle": "hip"}


def find_travel(before: Skeleton, after: Skeleton, side: str, end: str) -> Vector:
    """Return the way of a palm or an ankle in the room, in heights of the body."""
    return subtract(after.at(f"{side}-{end}"), before.at(f"{side}-{end}"))


def measure_travel(before: Skeleton, after: Skeleton, side: str, end: str) -> float:
    """Return how far a palm or an ankle goes by itself, in heights of the body.

    An arm that a trunk carries along, and a foot that stays on the floor under a trunk that
    moves, don't move by themselves: it is the smaller of the way in the room and the way as the
    limb's own root sees it.
    """
    way = find_travel(before, after, side, end)
    root = f"{side}-{_ROOTS[end]}"
    carried = subtract(after.at(root), before.at(root))
    return min(length(way), length(subtract(way, carried)))
