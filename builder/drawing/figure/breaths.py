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
_CLOSE = 2
"""How many of these places still read as beside the trunk."""
_STEPS = (0, 1, 2)
"""How many cross-sections higher an arrow on the trunk may stand, to be clear of hands."""
_UNDER_HAND = 0.07
"""A palm no farther from where the breath shows lies on it."""
_LEAST_SEEN = 0.55
"""How much of a breath's direction the picture must show."""
_BEHIND = -0.6
"""A breath that goes further away from the viewer than this is hidden by the body."""

Way = tuple[int, Vector]
"""A cross-section of the trunk, and the way out of it: ahead, to the left, up."""

_PLACES: dict[BreathPlace, tuple[Way, ...]] = {
    BreathPlace.BELLY: ((3, (1.0, 0.0, 0.0)),),
    BreathPlace.SIDES: ((4, (0.0, 1.0, 0.0)), (4, (0.0, -1.0, 0.0))),
    BreathPlace.LEFT: ((4, (0.0, 1.0, 0.0)),),
    BreathPlace.RIGHT: ((4, (0.0, -1.0, 0.0)),),
    BreathPlace.BACK: ((5, (-1.0, 0.0, 0.0)),),
    BreathPlace.CHEST: ((6, (1.0, 0.0, 0.0)),),
}


def find_breaths(
    scenes: tuple[Scene, Scene], breath: Iterable[BreathPlace], camera: Camera, *, is_in: bool
) -> tuple[Arrow, ...]:
    """Return an arrow out of the body, or into it, at each place that the breath moves.

    They are drawn with the second of both scenes. Arrows to the sides stand beside the trunk in
    both, or where arms leave no room there, on it in both.
    """
    scene = scenes[1]
    ways = [way for place in breath for way in _PLACES[place]]
    seen = list(_seen(scene, ways, camera))
    sides = [way for way in seen if way[1][1]]
    is_crowded = any(_hits_beside(each, way, camera) for each in scenes for way in sides)
    steps = min(_STEPS, key=lambda step: _hits_on(scenes, sides, camera, step))
    return tuple(
        _on_trunk(scene, (way[0] + steps, way[1]), camera, is_in=is_in)
        if is_crowded and way in sides
        else _beside(scene, way, camera, is_in=is_in)
        for way in seen
    )


def _seen(scene: Scene, ways: Iterable[Way], camera: Camera) -> Iterator[Way]:
    for index, way in ways:
        out = _in_room(scene.skeleton, index, way)
        is_behind = dot(out, camera.towards) < _BEHIND
        if math.hypot(out[0], dot(out, camera.up)) >= _LEAST_SEEN and not is_behind:
            yield index, way


def _in_room(skeleton: Skeleton, index: int, way: Vector) -> Vector:
    axes = skeleton.trunk[index].axes
    return add(*(scale(axis, part) for axis, part in zip(axes, way, strict=True)))


def _beside(scene: Scene, way: Way, camera: Camera, *, is_in: bool) -> Arrow:
    """Return the arrow of a way at the clearest of its places, the nearest first."""
    far = _find_far(scene, way)
    arrows = [_draw(scene, way, far + more, camera, is_in=is_in) for more in _FARTHER]
    return min(arrows, key=lambda arrow: count_hits(arrow, scene, camera))


def _on_trunk(scene: Scene, way: Way, camera: Camera, *, is_in: bool) -> Arrow:
    """Return an arrow that stands on the trunk and ends at its side."""
    index, direction = way
    skin = reach(scene.skeleton.trunk[index], _in_room(scene.skeleton, index, direction))
    return _draw(scene, way, skin - LENGTH, camera, is_in=is_in)


def _hits_beside(scene: Scene, way: Way, camera: Camera) -> int:
    """Return how much an arrow close beside the trunk would be on a limb."""
    far = _find_far(scene, way)
    arrows = [_draw(scene, way, far + more, camera, is_in=True) for more in _FARTHER[:_CLOSE]]
    return min(count_hits(arrow, scene, camera) for arrow in arrows)


def _hits_on(scenes: Iterable[Scene], sides: Iterable[Way], camera: Camera, step: int) -> int:
    """Return how much arrows on the trunk would be on limbs, some cross-sections higher."""
    ways = [(index + step, direction) for index, direction in sides]
    arrows = (
        (scene, _on_trunk(scene, way, camera, is_in=True)) for scene in scenes for way in ways
    )
    return sum(count_hits(arrow, scene, camera) for scene, arrow in arrows)


def _find_far(scene: Scene, way: Way) -> float:
    """Return where an arrow may begin: a gap off the skin, or off what lies on it."""
    index, direction = way
    piece = scene.skeleton.trunk[index]
    out = _in_room(scene.skeleton, index, direction)
    return max(_find_outside(scene.skeleton, piece, out), _find_ball(scene, piece, out)) + GAP


def _draw(scene: Scene, way: Way, far: float, camera: Camera, *, is_in: bool) -> Arrow:
    """Return an arrow that begins so far from the middle of the trunk."""
    index, direction = way
    middle = scene.skeleton.trunk[index].middle
    out = _in_room(scene.skeleton, index, direction)
    near_end = camera.see(add(middle, scale(out, far)))
    far_end = _lengthen(near_end, camera.see(add(middle, scale(out, far + 1))), camera)
    return Arrow(near_end, far_end) if is_in else Arrow(far_end, near_end)


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
