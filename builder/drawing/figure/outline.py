"""Outlines: the hull of two circles, and smooth closed curves, as steps of an SVG path."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.drawing.figure.camera import Point

Steps = list[str | float]
_SLIT = 0.2
"""Half the angle, in radians, at which a circle that holds another one is closed."""
_SOFTNESS = 1 / 6
"""A Catmull-Rom spline through points, as Bézier curves."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of the picture."""

    x: float
    y: float
    radius: float


def hull(first: Circle, second: Circle) -> Steps:
    """Return the outline around two circles; of the larger one where it holds the other.

    It has the same steps in both cases, so that a moving limb may go from one to the other.
    """
    gap = math.hypot(second.x - first.x, second.y - first.y)
    is_first = first.radius > second.radius
    angle = math.atan2(second.y - first.y, second.x - first.x)
    if gap <= abs(first.radius - second.radius) + 1e-9:
        spread = _SLIT if is_first else math.pi - _SLIT
        a = b = _at(first if is_first else second, angle + spread)
        c = d = _at(first if is_first else second, angle - spread)
    else:
        spread = math.acos((first.radius - second.radius) / gap)
        a, b = _at(first, angle + spread), _at(second, angle + spread)
        c, d = _at(second, angle - spread), _at(first, angle - spread)
    large = int(is_first)
    return [
        *("M", *a, "L", *b),
        *("A", second.radius, second.radius, 0, 1 - large, 0, *c),
        *("L", *d),
        *("A", first.radius, first.radius, 0, large, 0, *a, "Z"),
    ]


def closed_curve(points: Sequence[Point]) -> Steps:
    """Return a smooth closed curve through points."""
    count = len(points)
    steps: Steps = ["M", *points[0]]
    for index, start in enumerate(points):
        before, end, after = (points[(index + step) % count] for step in (-1, 1, 2))
        steps += [
            "C",
            *(start[axis] + (end[axis] - before[axis]) * _SOFTNESS for axis in (0, 1)),
            *(end[axis] - (after[axis] - start[axis]) * _SOFTNESS for axis in (0, 1)),
            *end,
        ]
    return [*steps, "Z"]


def polygon(points: Sequence[Point]) -> Steps:
    """Return a closed shape with straight sides."""
    steps: Steps = []
    for index, point in enumerate(points):
        steps += ["L" if index else "M", *point]
    return [*steps, "Z"]


def surround(points: Iterable[Point]) -> list[Point]:
    """Return the corners of the smallest convex shape around points, one way round."""
    around: list[Point] = []
    rising = sorted(set(points))
    for ordered in (rising, rising[::-1]):
        half: list[Point] = []
        for point in ordered:
            while len(half) > 1 and _bends_in(half[-2], half[-1], point):
                half.pop()
            half.append(point)
        around += half[:-1]
    return around


def _bends_in(first: Point, middle: Point, last: Point) -> bool:
    before = middle[0] - first[0], middle[1] - first[1]
    after = last[0] - first[0], last[1] - first[1]
    return before[0] * after[1] - before[1] * after[0] <= 0


def _at(circle: Circle, angle: float) -> Point:
    return (
        circle.x + circle.radius * math.cos(angle),
        circle.y + circle.radius * math.sin(angle),
    )
