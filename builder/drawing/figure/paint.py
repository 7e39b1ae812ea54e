"""A body in the picture: limbs as hulls of circles, the trunk as one closed curve."""

import math
from dataclasses import dataclass
from enum import IntEnum, StrEnum

from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.outline import Circle, Steps, closed_curve, hull
from builder.sums.skeleton import SIDES, Ball, Skeleton, Slice, reach, support
from builder.sums.space import Vector, add, cross, dot, length, scale, subtract, unit


class Layer(IntEnum):
    """What is drawn over what, the lowest first."""

    GROUND = 0
    FAR = 1
    TRUNK = 2
    HEAD = 3
    OVER_TRUNK = 4
    NEAR = 5
    ROUND_LIMBS = 6


class Tone(StrEnum):
    """How a part is filled."""

    NEAR = "near"
    FAR = "far"
    TRUNK = "trunk"
    HAIR = "hair"
    PROP = "prop"
    PROP_TOP = "prop-top"


@dataclass(frozen=True, slots=True)
class Part:
    """One piece of a picture."""

    name: str
    steps: Steps
    layer: Layer
    nearness: float
    tone: Tone


_UPPER = {"arm": (("shoulder", "elbow"),), "leg": (("hip", "knee"),)}
_LOWER = {
    "arm": (("elbow", "wrist"), ("wrist", "palm"), ("palm", "fingers"), ("wrist", "thumb")),
    "leg": (("knee", "ankle"), ("ankle", "heel"), ("heel", "toe"), ("ankle", "toe")),
}
_ROOT = {"arm": ("shoulder", -1), "leg": ("hip", 1)}
"""The joint at which a limb begins, and the cross-section of the trunk that it begins at."""
_NEAR_ENOUGH = {"arm": -0.012, "leg": 0.02}
"""How much nearer than the trunk a limb must begin to be drawn over it: in front and back views
arms lie over the trunk, and the trunk over the legs."""
_TOWARDS_VIEWER = 0.1
"""A knee so much nearer than the hips comes towards the viewer, over the trunk."""
_EVEN = 0.02
"""Limbs that begin less than this behind the trunk's middle are not far ones."""
_NOSE = ((0.036, 0.0, 0.004), 0.014), ((0.060, 0.0, -0.014), 0.007)
"""Bridge and tip in the head's own axes, and how broad they are."""
_NOSE_FROM_FRONT = (0.046, 0.0, 0.020), (0.058, 0.0, -0.018)
"""On a face that looks to the viewer, a stroke."""
_BEHIND_TRUNK = Layer.FAR, math.inf, Tone.NEAR
"""Layer, nearness and tone of a neck: the shoulders come before it."""
_DIRECTIONS = tuple(
    (math.cos(2 * math.pi * step / 8), math.sin(2 * math.pi * step / 8)) for step in range(8)
)
"""The ways aside and up in which an outline is felt for."""
_FACED = 0.5
"""How far a face points to the viewer, of 1, where its nose is drawn on it."""


def paint_body(skeleton: Skeleton, camera: Camera) -> list[Part]:
    """Return the parts of a body in no order; `Part.layer` and `Part.nearness` order them."""
    parts = [_paint_trunk(skeleton, camera), *_paint_head(skeleton, camera)]
    for side in SIDES:
        for kind in _ROOT:
            parts += _paint_limb(skeleton, camera, side, kind)
    return parts


def see_ball(ball: Ball, camera: Camera) -> Circle:
    """Return a point with its flesh as a circle."""
    return Circle(*camera.see(ball.middle), ball.radius * camera.scale)


def paint_ellipsoid(piece: Slice, camera: Camera) -> Steps:
    """Return the outline of an ellipsoid."""
    points = []
    for aside, up in _DIRECTIONS:
        way = add((aside, 0.0, 0.0), scale(camera.up, up))
        points.append(camera.see(add(piece.middle, support(piece, way))))
    return closed_curve(points)


def _paint_limb(skeleton: Skeleton, camera: Camera, side: str, kind: str) -> list[Part]:
    """Paint a limb in one piece, or in two where its end comes over the trunk from behind."""
    joint, index = _ROOT[kind]
    root, trunk = skeleton.at(f"{side}-{joint}"), skeleton.trunk[index].middle
    ahead = camera.nearness(root) - camera.nearness(trunk)
    knee = camera.nearness(skeleton.at(f"{side}-knee")) - camera.nearness(trunk)
    if kind == "leg" and knee > _TOWARDS_VIEWER:
        ahead = knee
    tone = Tone.FAR if ahead < -_EVEN else Tone.NEAR
    layer = Layer.NEAR if ahead > _NEAR_ENOUGH[kind] else Layer.FAR
    upper = _hulls(skeleton, camera, side, _UPPER[kind])
    lower = _hulls(skeleton, camera, side, _LOWER[kind])
    near = camera.nearness(root)
    name = f"{side}-{kind}"
    if kind == "leg" or layer is Layer.NEAR or not _comes_over(skeleton, camera, side):
        return [Part(name, [*upper, *lower], layer, near, tone)]
    return [
        Part(name, upper, layer, near, tone),
        Part(f"{name}-end", lower, Layer.OVER_TRUNK, near, tone),
    ]


def _comes_over(skeleton: Skeleton, camera: Camera, side: str) -> bool:
    """Tell whether a hand lies nearer to the viewer than the trunk behind it."""
    palm = skeleton.at(f"{side}-palm")
    x, y = camera.see(palm)

    def gap(piece: Slice) -> float:
        across, down = camera.see(piece.middle)
        return math.hypot(across - x, down - y)

    behind = min(skeleton.trunk, key=gap)
    is_over = gap(behind) < 1.6 * max(behind.radii) * camera.scale
    return is_over and camera.nearness(palm) > camera.nearness(behind.middle)


def _hulls(
    skeleton: Skeleton, camera: Camera, side: str, bones: tuple[tuple[str, str], ...]
) -> Steps:
    steps: Steps = []
    for bone in bones:
        start, end = (see_ball(skeleton.points[f"{side}-{name}"], camera) for name in bone)
        steps += hull(start, end)
    return steps


def _paint_trunk(skeleton: Skeleton, camera: Camera) -> Part:
    left: list[Point] = []
    right: list[Point] = []
    slices = skeleton.trunk
    last = len(slices) - 1
    for index, piece in enumerate(slices):
        along = _flatten(
            subtract(slices[min(index + 1, last)].middle, slices[max(index - 1, 0)].middle), camera
        )
        across = unit(cross(along, camera.towards))
        far = reach(piece, across)
        left.append(camera.see(add(piece.middle, scale(across, far))))
        right.append(camera.see(add(piece.middle, scale(across, -far))))
    top = _end(slices[-1], slices[-2], camera)
    seat = _end(slices[0], slices[1], camera)
    near = camera.nearness(slices[len(slices) // 2].middle)
    outline = closed_curve([*left, top, *reversed(right), seat])
    return Part("trunk", outline, Layer.TRUNK, near, Tone.TRUNK)


def _end(piece: Slice, before: Slice, camera: Camera) -> Point:
    along = unit(_flatten(subtract(piece.middle, before.middle), camera))
    return camera.see(add(piece.middle, scale(along, 0.8 * reach(piece, along))))


def _flatten(way: Vector, camera: Camera) -> Vector:
    """Take out of a way what the camera can't see."""
    flat = subtract(way, scale(camera.towards, dot(way, camera.towards)))
    return flat if length(flat) > 1e-9 else camera.up


def _paint_head(skeleton: Skeleton, camera: Camera) -> list[Part]:
    head = skeleton.head
    neck, chin = skeleton.points["neck"], skeleton.points["chin"]
    steps = paint_ellipsoid(head, camera)
    facing = dot(head.axes[0], camera.towards)
    if -0.6 < facing < _FACED:
        steps += hull(*(see_ball(Ball(_within(head, at), size), camera) for at, size in _NOSE))
    hair = Slice(_within(head, (-0.015, 0.0, 0.012)), head.axes, (0.0415, 0.0445, 0.0575))
    near = camera.nearness(head.middle)
    over = 0.001 if facing < _FACED else -0.001
    parts = [
        Part("neck", hull(see_ball(neck, camera), see_ball(chin, camera)), *_BEHIND_TRUNK),
        Part("head", steps, Layer.HEAD, near, Tone.NEAR),
        Part("hair", paint_ellipsoid(hair, camera), Layer.HEAD, near + over, Tone.HAIR),
    ]
    if facing >= _FACED:
        bridge, tip = (camera.see(_within(head, place)) for place in _NOSE_FROM_FRONT)
        nose: Steps = ["M", *bridge, "L", *tip]
        parts.append(Part("nose", nose, Layer.HEAD, near + 0.002, Tone.HAIR))
    return parts


def _within(piece: Slice, offsets: Vector) -> Vector:
    """Return a point of the room from its place in an ellipsoid's own axes."""
    ways = zip(piece.axes, offsets, strict=True)
    return add(piece.middle, *(scale(axis, far) for axis, far in ways))
