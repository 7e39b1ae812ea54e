"""A stage: bodies and props as they stand in the room, and the window that holds them all."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.course.figure import Figure, Stance, View
from builder.course.pose import Pose
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.paint import Part, paint_body
from builder.drawing.figure.solids import paint_solid
from builder.sums.rest import settle
from builder.sums.skeleton import Skeleton
from builder.sums.solids import PLACINGS, Solid

_RISES = {View.ABOVE: 60.0}
"""From straight above, bent knees would look like long legs."""
_RISE = 12.0
"""A little from above, so that far limbs show over near ones."""


@dataclass(frozen=True, slots=True)
class Scene:
    """One body with its props, where all of it rests."""

    pose: Pose
    skeleton: Skeleton
    props: tuple[tuple[str, Solid], ...]


@dataclass(frozen=True, slots=True)
class Window:
    """A rectangle of the picture, in heights of the body."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def size(self) -> Point:
        """Return width and height."""
        return self.right - self.left, self.bottom - self.top

    def around(self, points: Iterable[Point]) -> "Window":
        """Return the smallest window that holds this one and some points."""
        across, down = zip(*points, (self.left, self.top), (self.right, self.bottom), strict=True)
        return Window(min(across), min(down), max(across), max(down))

    def wider(self, margin: float) -> "Window":
        """Return a window with a margin all around."""
        return Window(
            self.left - margin, self.top - margin, self.right + margin, self.bottom + margin
        )


def set_scene(stance: Stance, props: Mapping[str, str]) -> Scene:
    """Let a body come to rest and lay its props."""
    pose, skeleton = settle(stance.pose, stance.contacts)
    solids = tuple(
        (prop, solid) for prop, how in props.items() for solid in PLACINGS[prop][how](skeleton)
    )
    return Scene(pose, skeleton, solids)


def set_scenes(figure: Figure) -> tuple[Scene, Scene]:
    """Return the scene at the end of the in-breath and at the end of the out-breath."""
    return set_scene(figure.inhale, figure.props), set_scene(figure.exhale, figure.props)


def look_at(view: View, scale: float = 1.0, origin: Point = (0.0, 0.0)) -> Camera:
    """Return the camera of a view."""
    return Camera(_RISES.get(view, _RISE), scale, origin)


def paint_scene(scene: Scene, camera: Camera) -> list[Part]:
    """Return all parts of a scene in the order in which they are drawn."""
    parts = paint_body(scene.skeleton, camera)
    for prop, solid in scene.props:
        parts += paint_solid(prop, solid, camera)
    return sorted(parts, key=lambda part: (part.layer, part.nearness))


def find_window(scenes: Iterable[Scene], view: View) -> Window:
    """Return the smallest window that holds every part of some scenes."""
    camera = look_at(view)
    points = [
        point
        for scene in scenes
        for part in paint_scene(scene, camera)
        for point in list_points(part.steps)
    ]
    across, down = [x for x, _ in points], [y for _, y in points]
    return Window(min(across), min(down), max(across), max(down))


def list_points(steps: list[str | float]) -> list[Point]:
    """Return the end points of a path of moves, lines, curves and arcs."""
    points: list[Point] = []
    numbers: list[float] = []
    for step in (*steps, "Z"):
        if isinstance(step, str):
            if len(numbers) > 1:
                points.append((numbers[-2], numbers[-1]))
            numbers = []
        else:
            numbers.append(step)
    return points
