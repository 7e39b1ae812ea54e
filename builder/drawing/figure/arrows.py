"""Arrows: what moves from one breath to the other, and where the breath goes."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.course.figure import BreathPlace
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.outline import Steps, polygon
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import Skeleton, reach
from builder.sums.space import Vector, add, dot, scale

_ENDS = ("left-palm", "right-palm", "left-ankle", "right-ankle", "left-knee", "right-knee")
_LEAST_MOVE = 0.06
"""Smaller moves show without an arrow, in heights of the body."""
_BESIDE = 0.055
_BREATH_LENGTH = 0.075
_BREATH_GAP = 0.03
_LEAST_SEEN = 0.6
"""How much of a breath's direction the picture must show."""

_PLACES: dict[BreathPlace, tuple[tuple[int, Vector], ...]] = {
    BreathPlace.BELLY: ((3, (1.0, 0.0, 0.0)),),
    BreathPlace.SIDES: ((5, (0.0, 1.0, 0.0)), (5, (0.0, -1.0, 0.0))),
    BreathPlace.BACK: ((5, (-1.0, 0.0, 0.0)),),
    BreathPlace.CHEST: ((6, (1.0, 0.0, 0.0)),),
}


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow of the picture."""

    start: Point
    end: Point


def find_moves(before: Scene, after: Scene, camera: Camera) -> tuple[Arrow, ...]:
    """Return an arrow for each limb that moves far enough to need one."""
    arrows = []
    centre = camera.see(after.skeleton.trunk[4].middle)
    for pair in (_ENDS[0:1], _ENDS[1:2], (_ENDS[2], _ENDS[4]), (_ENDS[3], _ENDS[5])):
        ways = [(camera.see(before.skeleton.at(n)), camera.see(after.skeleton.at(n))) for n in pair]
        start, end = max(ways, key=lambda way: math.dist(*way))
        if math.dist(start, end) >= _LEAST_MOVE * camera.scale:
            arrows.append(_beside(start, end, centre, _BESIDE * camera.scale))
    return tuple(arrows)


def find_breaths(
    scene: Scene, breath: Iterable[BreathPlace], camera: Camera, *, is_in: bool
) -> tuple[Arrow, ...]:
    """Return an arrow out of the body, or into it, at each place that the breath moves."""
    ways = [way for place in breath for way in _PLACES[place]]
    return tuple(
        _point(scene.skeleton, way, camera, is_in=is_in) for way in _seen(scene, ways, camera)
    )


def _seen(
    scene: Scene, ways: Iterable[tuple[int, Vector]], camera: Camera
) -> Iterator[tuple[int, Vector]]:
    for index, way in ways:
        out = _in_room(scene.skeleton, index, way)
        if math.hypot(out[0], dot(out, camera.up)) >= _LEAST_SEEN:
            yield index, way


def _in_room(skeleton: Skeleton, index: int, way: Vector) -> Vector:
    axes = skeleton.trunk[index].axes
    return add(*(scale(axis, part) for axis, part in zip(axes, way, strict=True)))


def _point(skeleton: Skeleton, way: tuple[int, Vector], camera: Camera, *, is_in: bool) -> Arrow:
    index, direction = way
    piece = skeleton.trunk[index]
    out = _in_room(skeleton, index, direction)
    far = reach(piece, out) + _BREATH_GAP
    near_end = camera.see(add(piece.middle, scale(out, far)))
    far_end = camera.see(add(piece.middle, scale(out, far + _BREATH_LENGTH)))
    return Arrow(near_end, far_end) if is_in else Arrow(far_end, near_end)


def _beside(start: Point, end: Point, centre: Point, gap: float) -> Arrow:
    """Move an arrow aside, away from the middle of the body."""
    along = end[0] - start[0], end[1] - start[1]
    size = math.hypot(*along)
    aside = -along[1] / size, along[0] / size
    middle = (start[0] + end[0]) / 2 - centre[0], (start[1] + end[1]) / 2 - centre[1]
    sign = 1 if aside[0] * middle[0] + aside[1] * middle[1] >= 0 else -1
    shift = sign * gap * aside[0], sign * gap * aside[1]
    return Arrow((start[0] + shift[0], start[1] + shift[1]), (end[0] + shift[0], end[1] + shift[1]))


def outline_arrow(arrow: Arrow, breadth: float) -> Steps:
    """Return an arrow as one closed shape, its shaft as broad as told."""
    (x, y), (tip_x, tip_y) = arrow.start, arrow.end
    size = math.hypot(tip_x - x, tip_y - y)
    ahead = (tip_x - x) / size, (tip_y - y) / size
    head = min(2.6 * breadth, 0.6 * size)
    half = breadth / 2

    def at(far: float, aside: float) -> Point:
        return x + far * ahead[0] - aside * ahead[1], y + far * ahead[1] + aside * ahead[0]

    neck = size - head
    return polygon(
        [
            at(0, half),
            at(neck, half),
            at(neck, 2.6 * half),
            at(size, 0),
            at(neck, -2.6 * half),
            at(neck, -half),
            at(0, -half),
        ]
    )
