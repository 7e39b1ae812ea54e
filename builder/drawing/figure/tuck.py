"""The tail tuck's arrow: a small roll of the pelvis, which the body itself hardly shows."""

import math

from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.camera import Camera
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import Skeleton
from builder.sums.space import Vector, add, between, dot, scale

_LEAST_TUCK = 8.0
"""Degrees."""
_RADIUS = 0.165
_BOW = 158.0, 220.0
"""Where the arrow stands round the hips, in degrees: 90 to the head, 180 behind, 270 to the feet.

There it scoops under the tail, clear of hands and thighs; under the mat of who lies on it.
"""
_LEAST_SEEN = 0.6
"""How much of the pelvis's own side the picture must show."""


def find_tuck(before: Scene, after: Scene, camera: Camera) -> Arrow | None:
    """Return an arrow round the hips, the way that the pelvis rolls; None where it stays."""
    change = after.stance.pose.spine.tuck - before.stance.pose.spine.tuck
    body = after.skeleton
    if abs(change) < _LEAST_TUCK or abs(dot(body.pelvis[1], camera.towards)) < _LEAST_SEEN:
        return None
    angles = _BOW[0], sum(_BOW) / 2, _BOW[1]
    start, past, end = (camera.see(_place(body, angle)) for angle in angles)
    return Arrow(start, end, past) if change > 0 else Arrow(end, start, past)


def _place(body: Skeleton, degrees: float) -> Vector:
    ahead, _, up = body.pelvis
    hips = between(body.at("left-hip"), body.at("right-hip"), 0.5)
    angle = math.radians(degrees)
    way = add(scale(ahead, math.cos(angle)), scale(up, math.sin(angle)))
    return add(hips, scale(way, _RADIUS))
