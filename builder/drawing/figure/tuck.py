"""The tail tuck's arrow: a small roll of the pelvis, which the body itself hardly shows."""

import math

from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.camera import Camera
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES, Skeleton
from builder.sums.space import Vector, add, between, dot, scale

_LEAST_TUCK = 8.0
"""Degrees."""
_RADIUS = 0.165
_BEFORE, _OVER, _BEHIND = (-12.0, 50.0), (38.0, 92.0), (150.0, 212.0)
"""Where an arrow may stand round the hips, in degrees: 0 ahead of the body, 90 to its head."""
_UPRIGHT = 0.7
_BESIDE_THIGH = 20.0
_OVER_FLOOR = 0.03
_LEAST_SEEN = 0.6
"""How much of the pelvis's own side the picture must show."""


def find_tuck(before: Scene, after: Scene, camera: Camera) -> Arrow | None:
    """Return an arrow round the hips, the way that the pelvis rolls; None where it stays."""
    change = after.stance.pose.spine.tuck - before.stance.pose.spine.tuck
    body = after.skeleton
    if abs(change) < _LEAST_TUCK or abs(dot(body.pelvis[1], camera.towards)) < _LEAST_SEEN:
        return None
    is_upright = body.pelvis[2][2] > _UPRIGHT
    for bow in (_BEHIND,) if is_upright else (_BEFORE, _OVER, _BEHIND):
        points = [_place(body, angle) for angle in (bow[0], (bow[0] + bow[1]) / 2, bow[1])]
        is_free = not any(bow[0] < angle < bow[1] for angle in _list_thighs(after))
        if is_free and min(point[2] for point in points) > _OVER_FLOOR:
            start, past, end = (camera.see(point) for point in points)
            return Arrow(start, end, past) if change > 0 else Arrow(end, start, past)
    return None


def _place(body: Skeleton, degrees: float) -> Vector:
    ahead, _, up = body.pelvis
    hips = between(body.at("left-hip"), body.at("right-hip"), 0.5)
    angle = math.radians(degrees)
    way = add(scale(ahead, math.cos(angle)), scale(up, math.sin(angle)))
    return add(hips, scale(way, _RADIUS))


def _list_thighs(scene: Scene) -> list[float]:
    """Return the angles round the hips that thighs cover, to either side of each."""
    hips = [getattr(scene.stance.pose, f"{side}_leg").hip - 90.0 for side in SIDES]
    return [hip + side for hip in hips for side in (-_BESIDE_THIGH, 0.0, _BESIDE_THIGH)]
