"""The pair: a body at the end of the in-breath beside itself at the end of the out-breath."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from builder.course.figure import Figure, View
from builder.drawing.figure.arrow import Arrow
from builder.drawing.figure.breaths import find_breaths
from builder.drawing.figure.camera import Camera, Placing, Point
from builder.drawing.figure.ink import (
    INK,
    LINE,
    PIXELS_PER_UNIT,
    UNITS_PER_MM,
    draw_arrows,
    draw_parts,
    write_parts,
)
from builder.drawing.figure.moves import find_moves
from builder.drawing.figure.paint import Part
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
class Picture:
    """One breath in heights of the body, painted once for sheets of any size."""

    camera: Camera
    parts: tuple[Part, ...]
    """In the order in which they are drawn."""
    presses: tuple[Arrow, ...]
    breaths: tuple[Arrow, ...]
    find_moves: Callable[[Camera], tuple[Arrow, ...]]
    """Finds what moves to this breath from the other one; how much of a limb's way has no arrow
    depends on how large it is drawn."""

    def list_arrows(self) -> tuple[Arrow, ...]:
        """Return all arrows in heights of the body."""
        return (*self.find_moves(self.camera), *self.presses, *self.breaths)

    def draw(self, name: str, placing: Placing, line: float) -> tuple[Svg, Svg]:
        """Draw body and props, and then the arrows, as they stand on a sheet."""
        parts = draw_parts(write_parts(self.parts, placing), name, line)
        presses, breaths = (
            [arrow.placed(placing) for arrow in kind] for kind in (self.presses, self.breaths)
        )
        moves = self.find_moves(replace(self.camera, scale=placing.scale, origin=placing.origin))
        return parts, draw_arrows([*moves, *presses], breaths, line)


@dataclass(frozen=True, slots=True)
class StagedPair:
    """A figure whose bodies have come to rest, to be drawn in any size."""

    figure: Figure
    scenes: tuple[Scene, Scene]
    pictures: tuple[Picture, Picture]
    window: Window
    """Holds both pictures and their arrows, with a margin."""

    def measure(self, room: Room, labels: Labels = ENGLISH) -> tuple[float, float]:
        """Return how wide and high the pair is drawn in a room, in millimetres."""
        sheet, scale = self._find_sheet(room, labels)
        height = self.window.size[1] * scale + _LABEL_LINES * sheet.letter
        return sheet.width / UNITS_PER_MM, height / UNITS_PER_MM

    def draw(self, name: str, room: Room = Room(), labels: Labels = ENGLISH) -> Pair:
        """Draw both breaths side by side, each with its arrows and its label.

        ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
        """
        figure, window = self.figure, self.window
        sheet, scale = self._find_sheet(room, labels)
        height = window.size[1] * scale
        panels = []
        for index, picture in enumerate(self.pictures):
            left = index * (sheet.panel + _GAP)
            middle = left + (sheet.panel - window.size[0] * scale) / 2
            placing = Placing(scale, middle - window.left * scale, -window.top * scale)
            line = LINE * scale
            panels += [
                _draw_floor(figure, placing, (left, left + sheet.panel), line),
                *picture.draw(f"{name}-{index}", placing, line),
                _label(labels.breaths[index], left + sheet.panel / 2, height, sheet),
            ]
        words = describe(figure, self.scenes, labels.language)
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
    inhale, exhale = scenes
    ways = ((exhale, inhale), True), ((inhale, exhale), False)
    first, second = (_paint_picture(figure, way, is_in=is_in) for way, is_in in ways)
    return StagedPair(figure, scenes, (first, second), _find_window((first, second)))


def draw_pair(figure: Figure, name: str, room: Room = Room(), labels: Labels = ENGLISH) -> Pair:
    """Draw a pair in one size, as its ``draw`` does."""
    return stage_pair(figure).draw(name, room, labels)


def draw_in_breath(
    figure: Figure, name: str, room: Room = Room(), labels: Labels = ENGLISH
) -> Pair:
    """Draw the end of the in-breath alone, without a label: for where a pair would be too small.

    ``name`` begins the ids of the drawing's parts, so it must be its own on a page.
    """
    pair = stage_pair(figure)
    across, down = pair.window.size
    wide, tall = UNITS_PER_MM * room.width_mm, UNITS_PER_MM * room.tallest_mm
    scale = min(wide / across, tall / down)
    placing = Placing(scale, -pair.window.left * scale, -pair.window.top * scale)
    line = LINE * scale
    title = name_figure(figure, labels.language)
    frame = Frame(
        "figure",
        across * scale,
        down * scale,
        title,
        describe(figure, pair.scenes, labels.language),
        pixels_per_unit=PIXELS_PER_UNIT,
    )
    svg = finish(
        frame,
        _draw_floor(figure, placing, (0.0, across * scale), line),
        *pair.pictures[0].draw(f"{name}-0", placing, line),
    )
    return Pair(svg, across * scale / UNITS_PER_MM)


def _paint_picture(figure: Figure, scenes: tuple[Scene, Scene], *, is_in: bool) -> Picture:
    """Paint the second scene, with what moves to it from the first or presses, and the breath."""
    before, after = scenes
    camera = look_at(figure.view)
    return Picture(
        camera,
        tuple(paint_scene(after, camera)),
        find_presses(after, camera),
        find_breaths(scenes, figure.breath, camera, is_in=is_in),
        partial(find_moves, before, after) if figure.has_move_arrows else _find_none,
    )


def _find_none(_: Camera) -> tuple[Arrow, ...]:
    return ()


def _find_window(pictures: tuple[Picture, Picture]) -> Window:
    """Return the window that holds both pictures and their arrows, with a margin."""
    points = [
        point
        for picture in pictures
        for arrow in picture.list_arrows()
        for point in (arrow.start, arrow.past or arrow.end, arrow.end)
    ]
    window = find_window(picture.parts for picture in pictures).around(points)
    return window.wider(_MARGIN)


def _fit(window: Window, sheet: _Sheet) -> float:
    across, down = window.size
    return min(sheet.panel / across, (sheet.tallest - _LABEL_LINES * sheet.letter) / down)


def _draw_floor(figure: Figure, placing: Placing, ends: Point, line: float) -> Svg:
    """Draw the floor where no mat shows it; a body seen from above needs none."""
    if figure.view is View.ABOVE or "mat" in figure.props:
        return element("g")
    y = round(placing.top)  # the room's own beginning lies on its floor
    return element("path", d=path("M", ends[0], y, "H", ends[1]), stroke=INK, stroke_width=line)


def _label(text: str, x: float, top: float, sheet: _Sheet) -> Svg:
    size = sheet.letter
    return element(
        "text", text, x=x, y=top + size, font_size=size, font_weight=600, text_anchor="middle"
    )
