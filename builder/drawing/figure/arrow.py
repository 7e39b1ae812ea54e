"""An arrow of the picture: straight, or bowed past a point."""

import math
from dataclasses import dataclass

from builder.drawing.figure.camera import Placing, Point
from builder.drawing.figure.outline import Steps, polygon

_BOW_STEPS = 5
"""A bow is drawn as so many straight pieces."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow of the picture; a curved one goes past a point on its way."""

    start: Point
    end: Point
    past: Point | None = None

    def placed(self, placing: Placing) -> "Arrow":
        """Return the same arrow as it stands on a sheet."""
        start, end = placing.place(self.start), placing.place(self.end)
        return Arrow(start, end, self.past and placing.place(self.past))


def outline_arrow(arrow: Arrow, shaft: float, head: float) -> Steps:
    """Return an arrow as one closed shape, its shaft and its head as broad as told."""
    size = math.dist(arrow.start, arrow.end)
    neck = 1 - min(0.9 * head / size, 0.6)
    count = _BOW_STEPS if arrow.past else 1
    spine = [_go_along(arrow, neck * index / count) for index in range(count + 1)]
    left, right = ([_aside(spot, sign * shaft / 2) for spot in spine] for sign in (1, -1))
    barbs = [_aside(spine[-1], sign * head / 2) for sign in (1, -1)]
    return polygon([*left, barbs[0], arrow.end, barbs[1], *reversed(right)])


def _go_along(arrow: Arrow, share: float) -> tuple[Point, Point]:
    """Return the point at a share of an arrow's way, and the direction there."""
    start, end = arrow.start, arrow.end
    past = arrow.past or ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    point, ahead = [], []
    for first, middle, last in zip(start, past, end, strict=True):
        control = 2 * middle - (first + last) / 2
        rest = 1 - share
        point.append(rest * rest * first + 2 * share * rest * control + share * share * last)
        ahead.append(rest * (control - first) + share * (last - control))
    return (point[0], point[1]), (ahead[0], ahead[1])


def _aside(spot: tuple[Point, Point], far: float) -> Point:
    """Return the point so far to the side of a spot of the way."""
    (x, y), ahead = spot
    size = math.hypot(*ahead)
    return x - far * ahead[1] / size, y + far * ahead[0] / size
