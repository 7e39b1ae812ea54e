"""Arrows that show where a breath goes."""

import math
from collections.abc import Iterable, Iterator

from builder.course.figure import BreathPlace
from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.clearance import count_hits
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES, Skeleton, Slice, reach
from builder.sums.space import Vector, add, distance, dot, scale, subtract

LENGTH = 0.075
GAP = 0.03
_FARTHER = (0.0, 0.03, 0.06, 0.09, 0.12)
"""How much farther out an arrow may stand, to be clear of limbs."""
_UNDER_HAND = 0.07
"""A palm no farther from where the breath shows lies on it."""
_LEAST_SEEN = 0.55
"""How much of a breath's direction the picture must show."""
_BEHIND = -0.6
"""A breath that goes further away from the viewer than this is hidden by the body."""

_PLACES: dict[BreathPlace, tuple[tuple[int, Vector], ...]] = {
    BreathPlace.BELLY: ((3, (1.0, 0.0, 0.0)),),
    BreathPlace.SIDES: ((4, (0.0, 1.0, 0.0)), (4, (0.0, -1.0, 0.0))),
    BreathPlace.LEFT: ((4, (0.0, 1.0, 0.0)),),
    BreathPlace.RIGHT: ((4, (0.0, -1.0, 0.0)),),
    BreathPlace.BACK: ((5, (-1.0, 0.0, 0.0)),),
    BreathPlace.CHEST: ((6, (1.0, 0.0, 0.0)),),
}


def find_breaths(
    scene: Scene, breath: Iterable[BreathPlace], camera: Camera, *, is_in: bool
) -> tuple[Arrow, ...]:
    """Return an arrow out of the body, or into it, at each place that the breath moves."""
    ways = [way for place in breath for way in _PLACES[place]]
    return tuple(_point(scene, way, camera, is_in=is_in) for way in _seen(scene, ways, camera))


def _seen(
    scene: Scene, ways: Iterable[tuple[int, Vector]], camera: Camera
) -> Iterator[tuple[int, Vector]]:
    for index, way in ways:
        out = _in_room(scene.skeleton, index, way)
        is_behind = dot(out, camera.towards) < _BEHIND
        if math.hypot(out[0], dot(out, camera.up)) >= _LEAST_SEEN and not is_behind:
            yield index, way


def _in_room(skeleton: Skeleton, index: int, way: Vector) -> Vector:
    axes = skeleton.trunk[index].axes
    return add(*(scale(axis, part) for axis, part in zip(axes, way, strict=True)))


def _point(scene: Scene, way: tuple[int, Vector], camera: Camera, *, is_in: bool) -> Arrow:
    index, direction = way
    skeleton = scene.skeleton
    piece = skeleton.trunk[index]
    out = _in_room(skeleton, index, direction)
    far = max(_find_outside(skeleton, piece, out), _find_ball(scene, piece, out)) + GAP
    arrows = []
    for more in _FARTHER:
        near_end = camera.see(add(piece.middle, scale(out, far + more)))
        far_end = _lengthen(near_end, camera.see(add(piece.middle, scale(out, far + 1))), camera)
        arrows.append(Arrow(near_end, far_end) if is_in else Arrow(far_end, near_end))
    return min(arrows, key=lambda arrow: count_hits(arrow, scene, camera))


def _lengthen(start: Point, towards: Point, camera: Camera) -> Point:
    """Return the end of an arrow of full length, however slanting its way is seen."""
    share = LENGTH * camera.scale / math.dist(start, towards)
    return start[0] + share * (towards[0] - start[0]), start[1] + share * (towards[1] - start[1])


def _find_ball(scene: Scene, piece: Slice, out: Vector) -> float:
    """Return how far a ball reaches that lies where the breath shows; 0 where none does."""
    balls = [solid for prop, solid in scene.props if prop == "ball" and isinstance(solid, Slice)]
    reaches = [0.0]
    for ball in balls:
        offset = subtract(ball.middle, piece.middle)
        along = dot(offset, out)
        if distance(offset, scale(out, along)) < ball.radii[0]:
            reaches.append(along + ball.radii[0])
    return max(reaches)


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
