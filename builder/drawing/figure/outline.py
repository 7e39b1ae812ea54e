"""Outlines: the hull of two circles, and smooth closed curves, as steps of an SVG path."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from builder.drawing.figure.camera import Point

Steps = list[str | float]
_SOFTNESS = 1 / 6
"""A Catmull-Rom spline through points, as Bézier curves."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle of the picture."""

    x: float
    y: float
    radius: float


def hull(first: Circle, second: Circle) -> Steps:
    """Return the outline around two circles; of the larger one where it holds the other."""
    gap = math.hypot(second.x - first.x, second.y - first.y)
    if gap <= abs(first.radius - second.radius) + 1e-9:
        return ring(max(first, second, key=lambda circle: circle.radius))
    angle = math.atan2(second.y - first.y, second.x - first.x)
    spread = math.acos((first.radius - second.radius) / gap)
    a, b = _at(first, angle + spread), _at(second, angle + spread)
    c, d = _at(second, angle - spread), _at(first, angle - spread)
    large = int(first.radius > second.radius)
    return [
        *("M", *a, "L", *b),
        *("A", second.radius, second.radius, 0, 1 - large, 0, *c),
        *("L", *d),
        *("A", first.radius, first.radius, 0, large, 0, *a, "Z"),
    ]


def ring(circle: Circle) -> Steps:
    """Return a whole circle."""
    left, right = circle.x - circle.radius, circle.x + circle.radius
    arc = ("A", circle.radius, circle.radius, 0, 1, 0)
    return ["M", left, circle.y, *arc, right, circle.y, *arc, left, circle.y, "Z"]


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


def _at(circle: Circle, angle: float) -> Point:
    return (
        circle.x + circle.radius * math.cos(angle),
        circle.y + circle.radius * math.sin(angle),
    )
