"""Level and upright lines of the map: their bends, their heads, and where they part."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import copysign, hypot

from builder.drawing.svg import path

Spot = tuple[float, float]
Way = tuple[Spot, ...]

_CORNER = 1.0
_HEAD_LENGTH = 1.9
_HEAD_HALF = 0.85


def write_line(way: Way) -> str:
    """Write the ``d`` of a line with round bends that ends at its arrow's head."""
    points = [*way[:-1], _step_back(way[-2], way[-1], _HEAD_LENGTH)]
    steps: list[str | float] = ["M", *points[0]]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        room = min(_CORNER, _distance(before, corner) / 2, _distance(corner, after) / 2)
        steps += ["L", *_step_back(before, corner, room)]
        steps += ["Q", *corner, *_step_back(after, corner, room)]
    return path(*steps, "L", *points[-1])


def write_head(way: Way) -> str:
    """Write the ``d`` of an arrow's head."""
    dx, dy = _direction(way[-2], way[-1])
    x, y = _step_back(way[-2], way[-1], _HEAD_LENGTH)
    side_x, side_y = -dy * _HEAD_HALF, dx * _HEAD_HALF
    corners = (x + side_x, y + side_y, "L", x - side_x, y - side_y)
    return path("M", *way[-1], "L", *corners, "Z")


def leave_shared(way: Way, others: Iterable[Way]) -> Way:
    """Cut off what runs on ways from the same start; a line drawn twice looks thicker."""
    return min((_leave(way, other) for other in others), key=_length, default=way)


def _leave(way: Way, other: Way) -> Way:
    pairs = enumerate(zip(way, other, strict=False))
    shared = next((index for index, (mine, theirs) in pairs if mine != theirs), 0)
    if shared == 0:
        return way
    fork, mine, theirs = way[shared - 1], way[shared], other[shared]
    if _direction(fork, mine) == _direction(fork, theirs):
        nearer = min(mine, theirs, key=lambda spot: _distance(fork, spot))
        return (_step_back(fork, nearer, 2 * _CORNER), *way[shared:])
    if shared == 1:
        return way
    return (_step_back(way[shared - 2], fork, 2 * _CORNER), *way[shared - 1 :])


def _length(way: Sequence[Spot]) -> float:
    return sum(_distance(here, there) for here, there in pairwise(way))


def _step_back(start: Spot, end: Spot, length: float) -> Spot:
    """Return the spot so far before the end, or the start if that comes first."""
    dx, dy = _direction(start, end)
    step = min(length, _distance(start, end))
    return (end[0] - dx * step, end[1] - dy * step)


def _direction(start: Spot, end: Spot) -> Spot:
    """Return which way a level or upright line runs."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (copysign(1, dx), 0) if abs(dx) > abs(dy) else (0, copysign(1, dy))


def _distance(start: Spot, end: Spot) -> float:
    return hypot(end[0] - start[0], end[1] - start[1])
