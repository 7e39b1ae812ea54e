"""Props in the picture: boxes by their faces, cushions and balls by their outlines."""

from dataclasses import replace
from itertools import pairwise, product

from builder.drawing.figure.camera import Camera
from builder.drawing.figure.outline import Circle, Steps, hull, polygon, surround
from builder.drawing.figure.paint import Layer, Part, Tone, paint_ellipsoid
from builder.sums.skeleton import Slice
from builder.sums.solid import Box, Solid, Strip
from builder.sums.space import add, dot, scale

_CORNERS = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
_THIN = 0.02
_GROUND = frozenset({"mat", "chair", "pillow", "towel", "wall"})
"""Props that a body lies or sits on."""
_CARRIED = frozenset({"bag"})
"""Props that hang from a hand, before the near leg or behind the far one."""


def paint_solid(prop: str, solid: Solid, camera: Camera) -> list[Part]:
    """Return the parts of one solid of a prop."""
    parts = _paint(prop, solid, camera)
    if prop not in _CARRIED:
        return parts
    return [replace(part, layer=Layer.NEAR if part.nearness > 0 else Layer.FAR) for part in parts]


def _paint(prop: str, solid: Solid, camera: Camera) -> list[Part]:
    layer = Layer.GROUND if prop in _GROUND else Layer.OVER_TRUNK
    if isinstance(solid, Box):
        if min(solid.halves[:2]) < _THIN:
            return [_paint_thin_box(prop, solid, camera, layer)]
        return _paint_box(prop, solid, camera, layer)
    if isinstance(solid, Slice):
        near = camera.nearness(solid.middle)
        return [Part(prop, paint_ellipsoid(solid, camera), layer, near, Tone.PROP)]
    return [_paint_strip(prop, solid, camera)]


def _paint_box(prop: str, box: Box, camera: Camera, layer: Layer) -> list[Part]:
    parts = []
    near = camera.nearness(box.middle)
    for axis, sign in product(range(3), (-1.0, 1.0)):
        normal = scale(box.axes[axis], sign)
        if dot(normal, camera.towards) <= 1e-6:
            continue
        face = add(box.middle, scale(normal, box.halves[axis]))
        edges = [scale(box.axes[i], box.halves[i]) for i in range(3) if i != axis]
        corners = [add(face, scale(edges[0], a), scale(edges[1], b)) for a, b in _CORNERS]
        steps = polygon([camera.see(corner) for corner in corners])
        tone = Tone.PROP_TOP if normal[2] > 0.7 else Tone.PROP
        parts.append(Part(prop, steps, layer, near, tone))
    return parts


def _paint_thin_box(prop: str, box: Box, camera: Camera, layer: Layer) -> Part:
    """Paint a leg, a rail or a wall by its outline alone, in which its edges would be lost."""
    edges = [scale(axis, half) for axis, half in zip(box.axes, box.halves, strict=True)]
    ways = [(scale(edge, -1.0), edge) for edge in edges]
    corners = [camera.see(add(box.middle, *way)) for way in product(*ways)]
    steps = polygon(surround(corners))
    return Part(prop, steps, layer, camera.nearness(box.middle), Tone.PROP)


def _paint_strip(prop: str, strip: Strip, camera: Camera) -> Part:
    steps: Steps = []
    for pair in pairwise(strip.points):
        start, end = (Circle(*camera.see(point), strip.radius * camera.scale) for point in pair)
        steps += hull(start, end)
    near = max(camera.nearness(point) for point in strip.points)
    if strip.is_loop:
        return Part(prop, steps, Layer.ROUND_LIMBS, near, Tone.PROP)
    return Part(prop, steps, Layer.OVER_TRUNK, near, Tone.PROP)
