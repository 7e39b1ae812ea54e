"""The ways of the arrows between the stops of the map, and the tracks they run on.

Between two columns lies a channel, between two rows a gutter; channel and gutter 0 lie before
the first. An arrow bends in those only, so none crosses a stop. Arrows from one stop share a
track; different stops never do.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum

from builder.drawing.map_grid import Cell, MapGrid


class Across(Enum):
    """What a point's place from left to right hangs on."""

    CHANNEL = "channel"
    LEFT = "left"
    """The left side of a column's stops; the next three likewise."""
    MIDDLE = "middle"
    BESIDE = "beside"
    """A little right of the middle, for arrows that leave upwards."""
    RIGHT = "right"


class Down(Enum):
    """What a point's place from top to bottom hangs on."""

    GUTTER = "gutter"
    TOP = "top"
    """The upper side of a row's stops; the next four likewise."""
    ENTRY = "entry"
    """Above the middle, where arrows come in from a bend."""
    MIDDLE = "middle"
    EXIT = "exit"
    """Below the middle, where arrows leave for a bend."""
    BOTTOM = "bottom"


@dataclass(frozen=True, slots=True)
class Point:
    """A bend or end of an arrow, before anything is measured."""

    across: Across
    column: int
    down: Down
    row: int


@dataclass(frozen=True, slots=True)
class Route:
    """One arrow's way."""

    source: str
    target: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Tracks:
    """Which track each source has, by channel or gutter."""

    channels: Mapping[int, Mapping[str, int]]
    gutters: Mapping[int, Mapping[str, int]]


_Spans = dict[int, dict[str, tuple[int, int]]]


def find_routes(grid: MapGrid) -> tuple[Route, ...]:
    """Find the way of every arrow."""
    return tuple(
        Route(source, target, _find_points(grid, grid.cells[source], grid.cells[target]))
        for source, target in grid.arrows
    )


def share_out_tracks(routes: Iterable[Route]) -> Tracks:
    """Give each source a track in every channel and gutter it runs along."""
    channels: _Spans = {}
    gutters: _Spans = {}
    for route in routes:
        for here, there in zip(route.points, route.points[1:], strict=False):
            if here.across is there.across is Across.CHANNEL:
                _stretch(channels, here.column, route.source, (_height(here), _height(there)))
            elif here.down is there.down is Down.GUTTER:
                _stretch(gutters, here.row, route.source, (_reach(here), _reach(there)))
    return Tracks(
        {index: _pack(spans) for index, spans in channels.items()},
        {index: _pack(spans) for index, spans in gutters.items()},
    )


def _find_points(grid: MapGrid, start: Cell, end: Cell) -> tuple[Point, ...]:
    forward = end.column > start.column
    between = range(start.column + 1, end.column)
    if forward and start.row == end.row and grid.is_free(Cell(end.row, k) for k in between):
        return _straight(start, end)
    if start.column == end.column and start.row < end.row:
        rows = range(start.row + 1, end.row)
        if grid.is_free(Cell(k, end.column) for k in rows):
            return _drop(start, end)
    if forward and start.row != end.row and _same_lane(grid, start, end):
        if grid.is_free(Cell(end.row, k) for k in between):
            return _one_bend(start, end, start.column + 1)
        if grid.is_free(Cell(start.row, k) for k in between):
            return _one_bend(start, end, end.column)
    if end.column == start.column + 1:
        return _one_bend(start, end, end.column)
    return _around(start, end)


def _same_lane(grid: MapGrid, *cells: Cell) -> bool:
    lanes = {max(row for row in grid.lane_starts if row <= cell.row) for cell in cells}
    return len(lanes) == 1


def _straight(start: Cell, end: Cell) -> tuple[Point, ...]:
    return (
        Point(Across.RIGHT, start.column, Down.MIDDLE, start.row),
        Point(Across.LEFT, end.column, Down.MIDDLE, end.row),
    )


def _drop(start: Cell, end: Cell) -> tuple[Point, ...]:
    return (
        Point(Across.MIDDLE, start.column, Down.BOTTOM, start.row),
        Point(Across.MIDDLE, end.column, Down.TOP, end.row),
    )


def _one_bend(start: Cell, end: Cell, channel: int) -> tuple[Point, ...]:
    return (
        Point(Across.RIGHT, start.column, Down.EXIT, start.row),
        Point(Across.CHANNEL, channel, Down.EXIT, start.row),
        Point(Across.CHANNEL, channel, Down.ENTRY, end.row),
        Point(Across.LEFT, end.column, Down.ENTRY, end.row),
    )


def _around(start: Cell, end: Cell) -> tuple[Point, ...]:
    """Leave by the upper or lower side and come along a gutter and a channel."""
    up = end.row < start.row
    across, side = (Across.BESIDE, Down.TOP) if up else (Across.MIDDLE, Down.BOTTOM)
    gutter = start.row if up else start.row + 1
    return (
        Point(across, start.column, side, start.row),
        Point(across, start.column, Down.GUTTER, gutter),
        Point(Across.CHANNEL, end.column, Down.GUTTER, gutter),
        Point(Across.CHANNEL, end.column, Down.ENTRY, end.row),
        Point(Across.LEFT, end.column, Down.ENTRY, end.row),
    )


def _height(point: Point) -> int:
    """Return an order of heights: gutter, then the parts of the row under it."""
    return 10 * point.row + tuple(Down).index(point.down)


def _reach(point: Point) -> int:
    """Return an order from left to right: channel, then the parts of the column after it."""
    return 10 * point.column + tuple(Across).index(point.across)


def _stretch(spans: _Spans, index: int, source: str, ends: tuple[int, int]) -> None:
    here = spans.setdefault(index, {})
    known = here.get(source, ends)
    here[source] = (min(*known, *ends), max(*known, *ends))


def _pack(spans: Mapping[str, tuple[int, int]]) -> dict[str, int]:
    """Put spans on as few tracks as they need, those that touch on different ones."""
    ends: list[int] = []
    tracks: dict[str, int] = {}
    for source, (low, high) in sorted(spans.items(), key=lambda item: (item[1], item[0])):
        free = [track for track, end in enumerate(ends) if end < low]
        track = free[0] if free else len(ends)
        ends[track : track + 1] = [high]
        tracks[source] = track
    return tracks
