"""The pair: a body at the end of the in-breath beside itself at the end of the out-breath."""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.course.figure import Figure
from builder.drawing.figure.arrows import Arrow, find_breaths, find_moves, outline_arrow
from builder.drawing.figure.outline import Steps
from builder.drawing.figure.paint import Part, Tone
from builder.drawing.figure.stage import (
    Window,
    find_window,
    look_at,
    paint_scene,
    set_scenes,
)
from builder.drawing.figure.words import describe, name_figure
from builder.drawing.svg import MM_PER_PIXEL, Frame, Svg, element, finish, path

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
_UNITS_PER_MM = 10
"""Whole tenths of a millimetre keep a drawing small, and are finer than print."""
LABELS = ("in-breath", "out-breath")


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Measures of a pair, in the units of its drawing."""

    name: str
    width: float
    letter: float

    @property
    def panel(self) -> float:
        return (self.width - _GAP_MM * _UNITS_PER_MM) / 2


def draw_pair(figure: Figure, name: str, width_mm: float = 90, letter_mm: float = 2.83) -> str:
    """Draw both breaths of a figure side by side, each with its arrows and its label.

    ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
    """
    sheet = _Sheet(name, width_mm * _UNITS_PER_MM, letter_mm * _UNITS_PER_MM)
    scenes = set_scenes(figure)
    window = _add_margin(find_window(scenes, figure.view))
    scale = _fit(window, sheet)
    height = window.size[1] * scale
    panels = []
    for index, (scene, other) in enumerate((scenes, scenes[::-1])):
        left = index * (sheet.panel + _GAP_MM * _UNITS_PER_MM)
        middle = left + (sheet.panel - window.size[0] * scale) / 2
        camera = look_at(figure.view, scale, (middle - window.left * scale, -window.top * scale))
        moves = find_moves(other, scene, camera)
        breaths = find_breaths(scene, figure.breath, camera, is_in=index == 0)
        line = _LINE * scale
        panels += [
            _draw_parts(paint_scene(scene, camera), f"{name}-{index}", line),
            _draw_arrows(moves, breaths, line),
            _label(LABELS[index], left + sheet.panel / 2, height, sheet),
        ]
    frame = Frame(
        "figure",
        sheet.width,
        height + 1.5 * sheet.letter,
        name_figure(figure),
        describe(figure, scenes),
        pixels_per_unit=1 / MM_PER_PIXEL / _UNITS_PER_MM,
    )
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


def _draw_parts(parts: Sequence[Part], name: str, line: float) -> Svg:
    """Draw each part's outline and lay its fill over it, so that a limb has one outline."""
    shapes = []
    for index, part in enumerate(parts):
        steps = _write(part.steps)
        if part.tone is Tone.BAND:
            shapes += [
                element("path", d=steps, fill="none", stroke_width=3.4 * line),
                element(
                    "path", d=steps, fill="none", stroke=FILLS[Tone.PROP], stroke_width=1.6 * line
                ),
            ]
            continue
        own = f"{name}-{index}"
        tone = part.tone
        shapes.append(element("path", id=own, d=steps))
        shapes.append(element("use", href=f"#{own}", class_=tone, fill=FILLS[tone], stroke="none"))
    return element("g", *shapes, stroke=INK, stroke_width=2 * line, stroke_linejoin="round")


def _draw_arrows(moves: tuple[Arrow, ...], breaths: tuple[Arrow, ...], line: float) -> Svg:
    shapes = [
        element("path", d=_write(outline_arrow(arrow, 1.5 * line)), class_="move", fill=INK)
        for arrow in moves
    ]
    shapes += [
        element("path", d=_write(outline_arrow(arrow, 3.2 * line)), class_="breath", fill="#fff")
        for arrow in breaths
    ]
    return element("g", *shapes, stroke=INK, stroke_width=0.7 * line, stroke_linejoin="round")


def _write(steps: Steps) -> str:
    return path(*(step if isinstance(step, str) else round(step) for step in steps))


def _label(text: str, x: float, top: float, sheet: _Sheet) -> Svg:
    size = sheet.letter
    return element(
        "text", text, x=x, y=top + size, font_size=size, font_weight=600, text_anchor="middle"
    )
