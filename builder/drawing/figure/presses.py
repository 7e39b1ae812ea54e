"""Arrows for what presses without moving: short ones, into the place that is pressed."""

import math

from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.camera import Camera
from builder.drawing.figure.stage import Scene
from builder.sums.body import KNEE_RADIUS, PALM_RADIUS
from builder.sums.skeleton import SIDES, Skeleton
from builder.sums.space import Vector, add, between, dot, scale, subtract, unit
from builder.sums.spots import find_spot, pinned_ball

_LENGTH = 0.07
_GAP = 0.02
_PINNED = 0.62
"""Where along a thigh it is that presses a ball."""
_LEAST_SEEN = 0.45
"""How much of an arrow's length the picture must show."""
_LEAST_APART = 0.06


def find_presses(scene: Scene, camera: Camera) -> tuple[Arrow, ...]:
    """Return an arrow for each limb that a figure says presses, where the picture shows it.

    A far limb that presses right behind a near one has none of its own.
    """
    least = _LEAST_SEEN * _LENGTH * camera.scale
    apart = _LEAST_APART * camera.scale
    arrows: list[Arrow] = []
    for limb in scene.stance.press:
        arrow = _point(scene, limb, camera)
        is_seen = math.dist(arrow.start, arrow.end) >= least
        if is_seen and all(math.dist(arrow.end, other.end) > apart for other in arrows):
            arrows.append(arrow)
    return tuple(arrows)


def _point(scene: Scene, limb: str, camera: Camera) -> Arrow:
    side, _, end = limb.partition("-")
    place, way = _press_hand(scene, side) if end == "hand" else _press_knee(scene, side)
    radius = PALM_RADIUS if end == "hand" else KNEE_RADIUS
    tip = add(place, scale(way, -radius - _GAP))
    return Arrow(camera.see(add(tip, scale(way, -_LENGTH))), camera.see(tip))


def _press_hand(scene: Scene, side: str) -> tuple[Vector, Vector]:
    """Return a palm and the way into what it lies on; away from the other hand where on nothing."""
    body = scene.skeleton
    place = scene.stance.contacts.hands.get(side)
    palm = body.at(f"{side}-palm")
    if place is None:
        return _press_apart(body, side, "palm")
    return palm, scale(find_spot(body, side, place, 0.0)[1], -1.0)


def _press_knee(scene: Scene, side: str) -> tuple[Vector, Vector]:
    """Return where a thigh presses a pinned ball, or a knee that presses out against a band."""
    body = scene.skeleton
    if "ball" not in dict(scene.props):
        return _press_apart(body, side, "knee")
    thigh = between(body.at(f"{side}-hip"), body.at(f"{side}-knee"), _PINNED)
    across = body.pelvis[1]
    way = subtract(pinned_ball(body), thigh)
    return thigh, unit(subtract(way, scale(across, dot(way, across))))


def _press_apart(body: Skeleton, side: str, end: str) -> tuple[Vector, Vector]:
    """Return an end of a limb, and the way from the other one, beyond which the arrow stands."""
    own, other = (body.at(f"{name}-{end}") for name in (side, *(SIDES.keys() - {side})))
    way = unit(subtract(own, other))
    return add(own, scale(way, _LENGTH + 2 * (KNEE_RADIUS + _GAP))), way
