"""Arrows: what moves from one breath to the other, and where the breath goes."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.course.figure import BreathPlace
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.outline import Steps, polygon
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES, Skeleton, Slice, reach
from builder.sums.space import Vector, add, between, distance, dot, scale, subtract

_LIMBS = (
    ("left-palm",),
    ("right-palm",),
    ("left-ankle", "left-knee"),
    ("right-ankle", "right-knee"),
)
_TRUNK = (1, 4)
"""Cross-sections that tell whether hips or back move."""
_LEAST_MOVE = 0.06
_LEAST_TRUNK_MOVE = 0.045
"""Smaller moves show without an arrow, in heights of the body."""
_BESIDE = 0.055
_BESIDE_TRUNK = 0.13
_BREATH_LENGTH = 0.075
_BREATH_GAP = 0.03
_UNDER_HAND = 0.07
"""A palm no farther from where the breath shows lies on it."""
_LEAST_ACROSS = 0.75
"""How much of a trunk's way must be out of its back for an arrow there."""
_LEAST_SEEN = 0.6
"""How much of a breath's direction the picture must show."""

_PLACES: dict[BreathPlace, tuple[tuple[int, Vector], ...]] = {
    BreathPlace.BELLY: ((3, (1.0, 0.0, 0.0)),),
    BreathPlace.SIDES: ((4, (0.0, 1.0, 0.0)), (4, (0.0, -1.0, 0.0))),
    BreathPlace.LEFT: ((4, (0.0, 1.0, 0.0)),),
    BreathPlace.RIGHT: ((4, (0.0, -1.0, 0.0)),),
    BreathPlace.BACK: ((5, (-1.0, 0.0, 0.0)),),
    BreathPlace.CHEST: ((6, (1.0, 0.0, 0.0)),),
}


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow of the picture."""

    start: Point
    end: Point


def find_moves(before: Scene, after: Scene, camera: Camera) -> tuple[Arrow, ...]:
    """Return an arrow for each limb that moves far enough; one for all where the trunk does."""
    first, second = before.skeleton, after.skeleton
    least = _LEAST_MOVE * camera.scale
    knees = camera.see(between(second.at("left-knee"), second.at("right-knee"), 0.5))
    trunk = _longest(
        (camera.see(first.trunk[index].middle), camera.see(second.trunk[index].middle))
        for index in _TRUNK
    )
    if math.dist(*trunk) >= _LEAST_TRUNK_MOVE * camera.scale:
        over = _over_back(second, trunk, camera)
        return (over or _beside(*trunk, knees, _BESIDE_TRUNK * camera.scale),)
    arrows = []
    centre = camera.see(second.trunk[4].middle)
    for ends in _LIMBS:
        way = _longest((camera.see(first.at(end)), camera.see(second.at(end))) for end in ends)
        if math.dist(*way) >= least:
            arrows.append(_beside(*way, centre, _BESIDE * camera.scale))
    return tuple(arrows)


def _over_back(body: Skeleton, way: tuple[Point, Point], camera: Camera) -> Arrow | None:
    """Return an arrow out of the back or into it; None where the trunk moves along itself."""
    piece = min(
        (body.trunk[index] for index in _TRUNK),
        key=lambda piece: math.dist(camera.see(piece.middle), way[1]),
    )
    out = scale(piece.axes[0], -1.0)
    near, far = (
        camera.see(add(piece.middle, scale(out, piece.radii[0] + gap)))
        for gap in (_BREATH_GAP, _BREATH_GAP + _BREATH_LENGTH)
    )
    (a, b), (c, d) = ((end[0] - start[0], end[1] - start[1]) for start, end in ((near, far), way))
    share = (a * c + b * d) / (math.hypot(a, b) * math.hypot(c, d) or 1.0)
    if abs(share) < _LEAST_ACROSS:
        return None
    return Arrow(near, far) if share > 0 else Arrow(far, near)


def _longest(ways: Iterable[tuple[Point, Point]]) -> tuple[Point, Point]:
    return max(ways, key=lambda way: math.dist(*way))


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
    far = _find_outside(skeleton, piece, out) + _BREATH_GAP
    near_end = camera.see(add(piece.middle, scale(out, far)))
    far_end = camera.see(add(piece.middle, scale(out, far + _BREATH_LENGTH)))
    return Arrow(near_end, far_end) if is_in else Arrow(far_end, near_end)


def _find_outside(skeleton: Skeleton, piece: Slice, out: Vector) -> float:
    """Return how far a cross-section reaches, with a hand that lies there."""
    skin = reach(piece, out)
    spot = add(piece.middle, scale(out, skin))
    palms = [skeleton.points[f"{side}-palm"] for side in SIDES]
    hands = [
        dot(subtract(palm.middle, piece.middle), out) + palm.radius
        for palm in palms
        if distance(palm.middle, spot) < _UNDER_HAND
    ]
    return max(skin, *hands) if hands else skin


def _beside(start: Point, end: Point, centre: Point, gap: float) -> Arrow:
    """Move an arrow aside, away from the middle of the body."""
    along = end[0] - start[0], end[1] - start[1]
    size = math.hypot(*along)
    aside = -along[1] / size, along[0] / size
    middle = (start[0] + end[0]) / 2 - centre[0], (start[1] + end[1]) / 2 - centre[1]
    sign = 1 if aside[0] * middle[0] + aside[1] * middle[1] >= 0 else -1
    shift = sign * gap * aside[0], sign * gap * aside[1]
    return Arrow((start[0] + shift[0], start[1] + shift[1]), (end[0] + shift[0], end[1] + shift[1]))


def outline_arrow(arrow: Arrow, shaft: float, head: float) -> Steps:
    """Return an arrow as one closed shape, its shaft and its head as broad as told."""
    (x, y), (tip_x, tip_y) = arrow.start, arrow.end
    size = math.hypot(tip_x - x, tip_y - y)
    ahead = (tip_x - x) / size, (tip_y - y) / size
    neck = size - min(0.9 * head, 0.6 * size)

    def at(far: float, aside: float) -> Point:
        return x + far * ahead[0] - aside * ahead[1], y + far * ahead[1] + aside * ahead[0]

    side = [(0.0, shaft / 2), (neck, shaft / 2), (neck, head / 2)]
    return polygon(
        [*(at(*spot) for spot in side), at(size, 0.0), *(at(f, -a) for f, a in reversed(side))]
    )
