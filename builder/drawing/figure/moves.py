"""Arrows that show what moves from one breath to the other."""

import math
from collections.abc import Iterable, Iterator

from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.breaths import GAP, LENGTH
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.clearance import count_hits
from builder.drawing.figure.stage import Scene
from builder.drawing.figure.tuck import find_tuck
from builder.sums.skeleton import Slice
from builder.sums.space import add, between, scale

_LIMBS = (
    ("left-palm",),
    ("right-palm",),
    ("left-ankle", "left-knee"),
    ("right-ankle", "right-knee"),
)
_TRUNK = (1, 4)
"""Cross-sections that tell whether hips or back move."""
_MIDDLE_BACK = 4
_LOADS = frozenset({"ball", "bag"})
_LEAST_MOVE = 0.06
_LEAST_TRUNK_MOVE = 0.045
"""Smaller moves show without an arrow, in heights of the body."""
_LEAST_CURL = 25.0
"""Degrees from which a back is seen to round or sink."""
_CUT = 0.3
"""At most so much of a limb's way has no arrow."""
_BESIDE = (0.055, 0.085, 0.115, -0.055, -0.085)
"""How far an arrow may stand from its limb's way, outwards first, to be clear of limbs."""
_BESIDE_TRUNK = 0.13
_LEAST_ACROSS = 0.85
"""How much of a trunk's way must be out of its back for an arrow there."""

_Way = tuple[Point, Point]


def find_moves(before: Scene, after: Scene, camera: Camera) -> tuple[Arrow, ...]:
    """Return an arrow for each limb that moves far enough.

    Where the trunk moves, limbs go with it: there is one for the trunk, and one for what the
    hands carry.
    """
    trunk = _find_trunk(before, after, camera)
    if trunk:
        return (trunk, *_find_loads(before, after, camera))
    tuck = find_tuck(before, after, camera)
    return (*_find_limbs(before, after, camera), *([tuck] if tuck else []))


def _find_limbs(before: Scene, after: Scene, camera: Camera) -> Iterator[Arrow]:
    centre = camera.see(after.skeleton.trunk[_MIDDLE_BACK].middle)
    for ends in _LIMBS:
        ways = [
            (camera.see(before.skeleton.at(end)), camera.see(after.skeleton.at(end)))
            for end in ends
        ]
        far = [way for way in ways if math.dist(*way) >= _LEAST_MOVE * camera.scale]
        if far:
            arrows = [_beside(_cut(far[0]), centre, gap * camera.scale) for gap in _BESIDE]
            yield min(arrows, key=lambda arrow: count_hits(arrow, after, camera))


def _find_loads(before: Scene, after: Scene, camera: Camera) -> Iterator[Arrow]:
    """Yield an arrow for a ball or bag that moves another way than the trunk."""
    for (prop, first), (_, second) in zip(before.props, after.props, strict=True):
        if prop in _LOADS and isinstance(first, Slice) and isinstance(second, Slice):
            way = camera.see(first.middle), camera.see(second.middle)
            if math.dist(*way) >= _LEAST_MOVE * camera.scale:
                aside = (second.radii[0] + GAP) * camera.scale
                centre = camera.see(after.skeleton.trunk[0].middle)
                arrows = [_beside(_cut(way), centre, gap) for gap in (aside, -aside)]
                yield min(arrows, key=lambda arrow: count_hits(arrow, after, camera))


def _find_trunk(before: Scene, after: Scene, camera: Camera) -> Arrow | None:
    curl = after.stance.pose.spine.curl - before.stance.pose.spine.curl
    body = after.skeleton
    if abs(curl) >= _LEAST_CURL:
        return _over_back(body.trunk[_MIDDLE_BACK], camera, is_out=curl > 0)
    way = _longest(
        (camera.see(before.skeleton.trunk[index].middle), camera.see(body.trunk[index].middle))
        for index in _TRUNK
    )
    if math.dist(*way) < _LEAST_TRUNK_MOVE * camera.scale:
        return None
    piece = min(
        (body.trunk[index] for index in _TRUNK),
        key=lambda piece: math.dist(camera.see(piece.middle), way[1]),
    )
    over = _over_back(piece, camera, is_out=True)
    across = _share(way, (over.start, over.end))
    if abs(across) >= _LEAST_ACROSS:
        return over if across > 0 else Arrow(over.end, over.start)
    knees = camera.see(between(body.at("left-knee"), body.at("right-knee"), 0.5))
    return _beside(way, knees, _BESIDE_TRUNK * camera.scale)


def _over_back(piece: Slice, camera: Camera, *, is_out: bool) -> Arrow:
    """Return an arrow out of the back, or into it."""
    out = scale(piece.axes[0], -1.0)
    near, far = (
        camera.see(add(piece.middle, scale(out, piece.radii[0] + gap)))
        for gap in (GAP, GAP + LENGTH)
    )
    return Arrow(near, far) if is_out else Arrow(far, near)


def _share(way: _Way, other: _Way) -> float:
    """Return how much of a way goes along another one, from -1 to 1."""
    (a, b), (c, d) = ((end[0] - start[0], end[1] - start[1]) for start, end in (way, other))
    return (a * c + b * d) / (math.hypot(a, b) * math.hypot(c, d) or 1.0)


def _longest(ways: Iterable[_Way]) -> _Way:
    return max(ways, key=lambda way: math.dist(*way))


def _cut(way: _Way) -> _Way:
    """Leave out where a limb comes from: another one may be there now."""
    (x, y), end = way
    share = _CUT * (1 - _LEAST_MOVE / max(math.dist(*way), _LEAST_MOVE))
    return (x + share * (end[0] - x), y + share * (end[1] - y)), end


def _beside(way: _Way, centre: Point, gap: float) -> Arrow:
    """Move an arrow aside, away from the middle of the body."""
    start, end = way
    along = end[0] - start[0], end[1] - start[1]
    size = math.hypot(*along)
    aside = -along[1] / size, along[0] / size
    middle = (start[0] + end[0]) / 2 - centre[0], (start[1] + end[1]) / 2 - centre[1]
    sign = 1 if aside[0] * middle[0] + aside[1] * middle[1] >= 0 else -1
    shift = sign * gap * aside[0], sign * gap * aside[1]
    return Arrow((start[0] + shift[0], start[1] + shift[1]), (end[0] + shift[0], end[1] + shift[1]))
