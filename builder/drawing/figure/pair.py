"""The pair: a body at the end of the in-breath beside itself at the end of the out-breath."""

from dataclasses import dataclass

from builder.course.figure import Figure
from builder.drawing.figure.arrows import Arrow, find_breaths, find_moves, outline_arrow
from builder.drawing.figure.camera import Camera
from builder.drawing.figure.paint import Part, Tone
from builder.drawing.figure.stage import (
    Scene,
    Window,
    find_window,
    look_at,
    paint_scene,
    set_scenes,
)
from builder.drawing.figure.words import describe, name_figure
from builder.drawing.svg import Frame, Svg, element, finish, path

INK = "#1d2b2a"
FILLS = {
    Tone.NEAR: "#aebfb8",
    Tone.FAR: "#e3e9e6",
    Tone.TRUNK: "#cad6d1",
    Tone.HAIR: "#56655f",
    Tone.PROP: "#efe9da",
    Tone.PROP_TOP: "#f8f4ea",
    Tone.BAND: "none",
}
"""Light enough for ink on top, and apart from each other in greys."""
_MARGIN = 0.04
_TALLEST = 0.85
"""The most that a panel may be high, in its widths."""
_LINE = 0.011
_GAP_MM = 3.0
LABELS = ("in-breath", "out-breath")


@dataclass(frozen=True, slots=True)
class _Sheet:
    width_mm: float
    letter_mm: float

    @property
    def panel(self) -> float:
        return (self.width_mm - _GAP_MM) / 2


def draw_pair(figure: Figure, width_mm: float = 90, letter_mm: float = 2.83) -> str:
    """Draw both breaths of a figure side by side, each with its arrows and its label."""
    sheet = _Sheet(width_mm, letter_mm)
    scenes = set_scenes(figure)
    window = _add_margin(find_window(scenes, figure.view))
    scale = _fit(window, sheet)
    height = window.size[1] * scale
    panels = []
    for index, (scene, other) in enumerate((scenes, scenes[::-1])):
        left = index * (sheet.panel + _GAP_MM)
        middle = left + (sheet.panel - window.size[0] * scale) / 2
        camera = look_at(figure.view, scale, (middle - window.left * scale, -window.top * scale))
        arrows = find_moves(other, scene, camera)
        breaths = find_breaths(scene, figure.breath, camera, is_in=index == 0)
        panels.append(_panel(scene, camera, arrows, breaths))
        panels.append(_label(LABELS[index], left + sheet.panel / 2, height, sheet))
    total = height + 1.5 * letter_mm
    frame = Frame("figure", width_mm, total, name_figure(figure), describe(figure, scenes))
    return finish(frame, *panels)


def _add_margin(window: Window) -> Window:
    return Window(
        window.left - _MARGIN,
        window.top - _MARGIN,
        window.right + _MARGIN,
        window.bottom + _MARGIN / 2,
    )


def _fit(window: Window, sheet: _Sheet) -> float:
    across, down = window.size
    return min(sheet.panel / across, _TALLEST * sheet.panel / down)


def _panel(
    scene: Scene, camera: Camera, moves: tuple[Arrow, ...], breaths: tuple[Arrow, ...]
) -> Svg:
    line = _LINE * camera.scale
    shapes = [shape for part in paint_scene(scene, camera) for shape in _draw(part, line)]
    for arrow in moves:
        steps = outline_arrow(arrow, 1.5 * line)
        shapes.append(element("path", d=path(*steps), class_="move", fill=INK))
    for arrow in breaths:
        steps = outline_arrow(arrow, 3.2 * line)
        shapes.append(
            element("path", d=path(*steps), class_="breath", fill="#fff", stroke_width=0.7 * line)
        )
    return element(
        "g", *shapes, stroke=INK, stroke_width=line, stroke_linejoin="round", stroke_linecap="round"
    )


def _draw(part: Part, line: float) -> list[Svg]:
    steps = path(*part.steps)
    if part.tone is Tone.BAND:
        return [
            element("path", d=steps, fill="none", stroke_width=3.4 * line),
            element("path", d=steps, fill="none", stroke=FILLS[Tone.PROP], stroke_width=1.6 * line),
        ]
    fill = FILLS[part.tone]
    return [
        element("path", d=steps, stroke_width=2 * line),
        element("path", d=steps, class_=part.tone.value, fill=fill, stroke="none"),
    ]


def _label(text: str, x: float, top: float, sheet: _Sheet) -> Svg:
    size = sheet.letter_mm
    return element(
        "text", text, x=x, y=top + size, font_size=size, font_weight=600, text_anchor="middle"
    )
