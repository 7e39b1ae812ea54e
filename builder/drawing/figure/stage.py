"""A stage: bodies and props as they stand in the room, and the window that holds them all."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from builder.course.figure import Figure, Stance, View
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.paint import Part, paint_body
from builder.drawing.figure.solids import paint_solid
from builder.sums.furniture import find_mat
from builder.sums.rest import settle
from builder.sums.skeleton import Skeleton
from builder.sums.solid import Solid
from builder.sums.solids import PLACINGS, STAYING
from builder.sums.spots import CHAIR_PLACES

_RISES = {View.ABOVE: 60.0}
"""From straight above, bent knees would look like long legs."""
_RISE = 12.0
"""A little from above, so that far limbs show over near ones."""


@dataclass(frozen=True, slots=True)
class Scene:
    """One body with its props, where all of it rests."""

    stance: Stance
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


@dataclass(frozen=True, slots=True)
class Stage:
    """Where a figure moves: props that stay where they are, and how the others go with it."""

    staying: tuple[tuple[str, Solid], ...]
    carried: Mapping[str, str]

    def set_scene(self, stance: Stance) -> Scene:
        """Let a body come to rest and lay what it carries."""
        pose, skeleton = settle(stance.pose, stance.contacts)
        carried = _lay(self.carried, skeleton)
        return Scene(replace(stance, pose=pose), skeleton, (*self.staying, *carried))


def build_stage(figure: Figure) -> Stage:
    """Lay what stays: under the body as it breathes out, unless only the in-breath uses it."""
    stances = figure.inhale, figure.exhale
    inhale, exhale = (settle(stance.pose, stance.contacts)[1] for stance in stances)
    staying: list[tuple[str, Solid]] = []
    for prop in figure.props:
        if prop == "mat":
            staying.append((prop, find_mat((inhale, exhale))))
        elif prop in STAYING:
            body = inhale if prop == "chair" and _uses_chair(figure) else exhale
            staying += _lay({prop: figure.props[prop]}, body)
    carried = {prop: how for prop, how in figure.props.items() if prop not in STAYING}
    return Stage(tuple(staying), carried)


def set_scenes(figure: Figure) -> tuple[Scene, Scene]:
    """Return the scene at the end of the in-breath and at the end of the out-breath."""
    stage = build_stage(figure)
    return stage.set_scene(figure.inhale), stage.set_scene(figure.exhale)


def _lay(props: Mapping[str, str], skeleton: Skeleton) -> tuple[tuple[str, Solid], ...]:
    return tuple(
        (prop, solid) for prop, how in props.items() for solid in PLACINGS[prop][how](skeleton)
    )


def _uses_chair(figure: Figure) -> bool:
    """Tell whether a body sits on its chair or holds it on the in-breath alone."""
    first, second = (
        stance.contacts.on_seat or not CHAIR_PLACES.isdisjoint(stance.contacts.hands.values())
        for stance in (figure.inhale, figure.exhale)
    )
    return first and not second


def look_at(view: View, scale: float = 1.0, origin: Point = (0.0, 0.0)) -> Camera:
    """Return the camera of a view."""
    return Camera(_RISES.get(view, _RISE), scale, origin)


def paint_scene(scene: Scene, camera: Camera) -> list[Part]:
    """Return all parts of a scene in the order in which they are drawn."""
    parts = paint_body(scene.skeleton, camera)
    for prop, solid in scene.props:
        parts += paint_solid(prop, solid, camera)
    return sorted(parts, key=lambda part: (part.layer, part.nearness))


def find_window(pictures: Iterable[Iterable[Part]]) -> Window:
    """Return the smallest window that holds every part of some painted scenes."""
    points = [point for parts in pictures for part in parts for point in list_points(part.steps)]
    across, down = [x for x, _ in points], [y for _, y in points]
    return Window(min(across), min(down), max(across), max(down))


def list_points(steps: list[str | float]) -> list[Point]:
    """Return the end points of a path of moves, lines, curves and arcs."""
    letters = [at for at, step in enumerate(steps) if isinstance(step, str)]
    return [
        (float(steps[end - 2]), float(steps[end - 1]))
        for begin, end in pairwise((*letters, len(steps)))
        if end - begin > 1
    ]
