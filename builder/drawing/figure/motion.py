"""The moving figure: the same body at steps of one breath, for a browser to go between."""

import json
from dataclasses import dataclass, replace

from builder.course.figure import Contacts, Figure, Stance
from builder.course.pose import blend
from builder.drawing.figure.camera import Placing
from builder.drawing.figure.ink import (
    LINE,
    PIXELS_PER_UNIT,
    UNITS_PER_MM,
    draw_parts,
    write_parts,
)
from builder.drawing.figure.stage import build_stage, find_window, look_at, paint_scene
from builder.drawing.figure.words import describe, name_figure
from builder.drawing.labels import ENGLISH, Labels
from builder.drawing.svg import Frame, finish

_MARGIN = 0.04
STEPS = 4
"""From the end of an out-breath to the end of an in-breath; between them goes a straight line."""


@dataclass(frozen=True, slots=True)
class Motion:
    """A drawing, and how its parts look at each step."""

    svg: str
    frames: str
    """JSON: for each step the parts as pairs of tone and path, in the order of the drawing."""


def draw_motion(
    figure: Figure, name: str, width_mm: float = 90, labels: Labels = ENGLISH
) -> Motion:
    """Draw a figure at the end of the out-breath, with what it takes to move it.

    ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
    """
    stage = build_stage(figure)
    scenes = [stage.set_scene(_stand(figure, index / STEPS)) for index in range(STEPS + 1)]
    pictures = [paint_scene(scene, look_at(figure.view)) for scene in scenes]
    window = find_window(pictures).wider(_MARGIN)
    scale = width_mm * UNITS_PER_MM / window.size[0]
    placing = Placing(scale, -window.left * scale, -window.top * scale)
    frames = [write_parts(parts, placing) for parts in pictures]
    frame = Frame(
        "figure",
        width_mm * UNITS_PER_MM,
        window.size[1] * scale,
        name_figure(figure, labels.language),
        describe(figure, (scenes[-1], scenes[0]), labels.language),
        pixels_per_unit=PIXELS_PER_UNIT,
    )
    svg = finish(frame, draw_parts(frames[0], name, LINE * scale))
    return Motion(svg, json.dumps(frames, separators=(",", ":")))


def _stand(figure: Figure, share: float) -> Stance:
    """Return how the body stands at a share of the way to the end of the in-breath."""
    if share in (0.0, 1.0):
        return figure.inhale if share else figure.exhale
    pose = blend(figure.exhale.pose, figure.inhale.pose, share)
    return Stance(figure.exhale.base, pose, _contacts(figure))


def _contacts(figure: Figure) -> Contacts:
    """Return what carries a body on its way; whoever gets up from a seat is on the feet."""
    first, second = figure.exhale.contacts, figure.inhale.contacts
    chosen = second if first.on_seat else first
    kept = {side: spot for side, spot in chosen.hands.items() if spot in _both(first, second, side)}
    return replace(chosen, hands=kept)


def _both(first: Contacts, second: Contacts, side: str) -> set[str | None]:
    places = {first.hands.get(side), second.hands.get(side)}
    return places if len(places) == 1 else set()
