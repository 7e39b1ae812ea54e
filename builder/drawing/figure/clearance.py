"""Clearance: whether an arrow stands free of limbs and head, so that it isn't read as theirs."""

import math

from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES, Ball, Skeleton

_BONES = (
    ("shoulder", "elbow"),
    ("elbow", "wrist"),
    ("wrist", "fingers"),
    ("hip", "knee"),
    ("knee", "ankle"),
    ("heel", "toe"),
)
_SPOTS = (0.0, 0.5, 1.0)
"""Where along an arrow it is looked at, as shares of its length."""
_MARGIN = 0.012
"""Between an arrow and a limb's flesh, in heights of the body."""


def count_hits(arrow: Arrow, scene: Scene, camera: Camera) -> int:
    """Return how many spots of an arrow lie on a limb, the head or the feet."""
    spots = [_along(arrow, share) for share in _SPOTS]
    pieces = _see_pieces(scene.skeleton, camera)
    return sum(any(_gap(spot, start, end) < room for start, end, room in pieces) for spot in spots)


def _see_pieces(body: Skeleton, camera: Camera) -> list[tuple[Point, Point, float]]:
    """Return both ends of each limb's parts and of the head, and how near an arrow is on them."""
    balls = [
        (body.points[f"{side}-{start}"], body.points[f"{side}-{end}"])
        for side in SIDES
        for start, end in _BONES
    ]
    head = Ball(body.head.middle, min(body.head.radii))
    return [
        (
            camera.see(first.middle),
            camera.see(last.middle),
            (max(first.radius, last.radius) + _MARGIN) * camera.scale,
        )
        for first, last in (*balls, (head, head))
    ]


def _along(arrow: Arrow, share: float) -> Point:
    (x, y), (tip_x, tip_y) = arrow.start, arrow.end
    return x + share * (tip_x - x), y + share * (tip_y - y)


def _gap(spot: Point, start: Point, end: Point) -> float:
    """Return how far a spot is from the line between two points."""
    along = end[0] - start[0], end[1] - start[1]
    way = spot[0] - start[0], spot[1] - start[1]
    size = along[0] ** 2 + along[1] ** 2
    share = (way[0] * along[0] + way[1] * along[1]) / size if size else 0.0
    share = max(0.0, min(1.0, share))
    return math.dist(way, (share * along[0], share * along[1]))
