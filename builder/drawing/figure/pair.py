"""The pair: a body at the end of the in-breath beside itself at the end of the out-breath."""

from dataclasses import dataclass

from builder.course.figure import Figure, View
from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.breaths import find_breaths
from builder.drawing.figure.camera import Camera, Point
from builder.drawing.figure.ink import (
    INK,
    LINE,
    PIXELS_PER_UNIT,
    UNITS_PER_MM,
    draw_arrows,
    draw_parts,
)
from builder.drawing.figure.moves import find_moves
from builder.drawing.figure.presses import find_presses
from builder.drawing.figure.stage import (
    Scene,
    Window,
    find_window,
    look_at,
    paint_scene,
    set_scenes,
)
from builder.drawing.figure.words import describe, name_figure
from builder.drawing.labels import ENGLISH, Labels
from builder.drawing.lettering import measure_text
from builder.drawing.svg import Frame, Svg, element, finish, path

_MARGIN = 0.04
_LABEL_LINES = 1.5
_GAP = 3.0 * UNITS_PER_MM


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Measures of a pair, in the units of its drawing."""

    width: float
    letter: float
    tallest: float

    @property
    def panel(self) -> float:
        """Return how wide each of both pictures may be."""
        return (self.width - _GAP) / 2

    def around(self, panel: float, labels: Labels) -> "_Sheet":
        """Return the sheet around pictures no wider than told, with room for their labels."""
        least = max(measure_text(label, self.letter) for label in labels.breaths) + self.letter
        return _Sheet(min(self.width, 2 * max(panel, least) + _GAP), self.letter, self.tallest)


@dataclass(frozen=True, slots=True)
class Room:
    """How much room a pair has, in millimetres."""

    width_mm: float = 90
    tallest_mm: float = 40
    letter_mm: float = 2.83
    is_snug: bool = False
    """Whether a high figure leaves the room beside it to others."""
    has_one_text: bool = False
    """Where only a title is read, as in PDF, it tells what the description tells."""


@dataclass(frozen=True, slots=True)
class Pair:
    """The drawing of a pair, or of one picture of it, and how wide it is."""

    svg: str
    width_mm: float


@dataclass(frozen=True, slots=True)
class StagedPair:
    """A figure whose bodies have come to rest, to be drawn in any size."""

    figure: Figure
    scenes: tuple[Scene, Scene]
    window: Window
    """Holds both scenes and their arrows."""

    def measure(self, room: Room, labels: Labels = ENGLISH) -> tuple[float, float]:
        """Return how wide and high the pair is drawn in a room, in millimetres."""
        sheet, scale = self._find_sheet(room, labels)
        height = self.window.size[1] * scale + _LABEL_LINES * sheet.letter
        return sheet.width / UNITS_PER_MM, height / UNITS_PER_MM

    def draw(self, name: str, room: Room = Room(), labels: Labels = ENGLISH) -> Pair:
        """Draw both breaths side by side, each with its arrows and its label.

        ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
        """
        figure, scenes, window = self.figure, self.scenes, self.window
        sheet, scale = self._find_sheet(room, labels)
        height = window.size[1] * scale
        panels = []
        for index, (scene, other) in enumerate((scenes, scenes[::-1])):
            left = index * (sheet.panel + _GAP)
            middle = left + (sheet.panel - window.size[0] * scale) / 2
            camera = look_at(
                figure.view, scale, (middle - window.left * scale, -window.top * scale)
            )
            arrows = _find_arrows(figure, (other, scene), camera, is_in=index == 0)
            line = LINE * scale
            panels += [
                _draw_floor(figure, camera, (left, left + sheet.panel), line),
                draw_parts(paint_scene(scene, camera), f"{name}-{index}", line),
                draw_arrows(*arrows, line),
                _label(labels.breaths[index], left + sheet.panel / 2, height, sheet),
            ]
        words = describe(figure, scenes, labels.language)
        frame = Frame(
            "figure",
            sheet.width,
            height + _LABEL_LINES * sheet.letter,
            words if room.has_one_text else name_figure(figure, labels.language),
            words,
            pixels_per_unit=PIXELS_PER_UNIT,
        )
        return Pair(finish(frame, *panels), sheet.width / UNITS_PER_MM)

    def _find_sheet(self, room: Room, labels: Labels) -> tuple[_Sheet, float]:
        """Return the sheet, and how large its bodies are."""
        sheet = _Sheet(
            *(UNITS_PER_MM * size for size in (room.width_mm, room.letter_mm, room.tallest_mm))
        )
        scale = _fit(self.window, sheet)
        if room.is_snug:
            sheet = sheet.around(self.window.size[0] * scale, labels)
        return sheet, scale


def stage_pair(figure: Figure) -> StagedPair:
    """Let a figure's bodies come to rest on what carries them."""
    scenes = set_scenes(figure)
    return StagedPair(figure, scenes, _find_window(figure, scenes))


def draw_pair(figure: Figure, name: str, room: Room = Room(), labels: Labels = ENGLISH) -> Pair:
    """Draw a pair in one size, as its ``draw`` does."""
    return stage_pair(figure).draw(name, room, labels)


def draw_in_breath(
    figure: Figure, name: str, room: Room = Room(), labels: Labels = ENGLISH
) -> Pair:
    """Draw the end of the in-breath alone, without a label: for where a pair would be too small.

    ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
    """
    inhale, exhale = scenes = set_scenes(figure)
    window = _find_window(figure, scenes)
    across, down = window.size
    wide, tall = UNITS_PER_MM * room.width_mm, UNITS_PER_MM * room.tallest_mm
    scale = min(wide / across, tall / down)
    camera = look_at(figure.view, scale, (-window.left * scale, -window.top * scale))
    arrows = _find_arrows(figure, (exhale, inhale), camera, is_in=True)
    line = LINE * scale
    title = name_figure(figure, labels.language)
    frame = Frame(
        "figure",
        across * scale,
        down * scale,
        title,
        describe(figure, scenes, labels.language),
        pixels_per_unit=PIXELS_PER_UNIT,
    )
    svg = finish(
        frame,
        _draw_floor(figure, camera, (0.0, across * scale), line),
        draw_parts(paint_scene(inhale, camera), f"{name}-0", line),
        draw_arrows(*arrows, line),
    )
    return Pair(svg, across * scale / UNITS_PER_MM)


def _find_arrows(
    figure: Figure, scenes: tuple[Scene, Scene], camera: Camera, *, is_in: bool
) -> tuple[tuple[Arrow, ...], tuple[Arrow, ...]]:
    """Return what moves from the first scene to the second or presses, and where breath goes."""
    before, after = scenes
    moves = find_moves(before, after, camera) if figure.has_move_arrows else ()
    moves = (*moves, *find_presses(after, camera))
    return moves, find_breaths(scenes, figure.breath, camera, is_in=is_in)


def _find_window(figure: Figure, scenes: tuple[Scene, Scene]) -> Window:
    """Return the window that holds both scenes and their arrows, with a margin."""
    camera = look_at(figure.view)
    arrows = [
        arrow
        for pair, is_in in ((scenes[::-1], True), (scenes, False))
        for kind in _find_arrows(figure, pair, camera, is_in=is_in)
        for arrow in kind
    ]
    points = [
        point for arrow in arrows for point in (arrow.start, arrow.past or arrow.end, arrow.end)
    ]
    window = find_window(scenes, figure.view).around(points)
    return window.wider(_MARGIN)


def _fit(window: Window, sheet: _Sheet) -> float:
    across, down = window.size
    return min(sheet.panel / across, (sheet.tallest - _LABEL_LINES * sheet.letter) / down)


def _draw_floor(figure: Figure, camera: Camera, ends: Point, line: float) -> Svg:
    """Draw the floor where no mat shows it; a body seen from above needs none."""
    if figure.view is View.ABOVE or "mat" in figure.props:
        return element("g")
    y = round(camera.see((0.0, 0.0, 0.0))[1])
    return element("path", d=path("M", ends[0], y, "H", ends[1]), stroke=INK, stroke_width=line)


def _label(text: str, x: float, top: float, sheet: _Sheet) -> Svg:
    size = sheet.letter
    return element(
        "text", text, x=x, y=top + size, font_size=size, font_weight=600, text_anchor="middle"
    )
