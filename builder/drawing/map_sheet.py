"""The map in numbers: how wide its columns and how high its rows are, in printed millimetres."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate

from builder.drawing.lettering import LINE_HEIGHT, measure_text, wrap_text
from builder.drawing.map_grid import Lane, MapGrid
from builder.drawing.map_lines import Spot, Way
from builder.drawing.map_routes import Across, Down, Point, Route, Tracks

LETTER = 2.9
"""Font size of the stops."""
LANE_LETTER = 3.1
STOP_WIDTH = 22.5
LANE_PAD = 1.8
"""From the edge of a lane to its stops."""
LANE_HEAD = 24.0
_WIDEST_HEAD = 48.0
"""Width of the place for a strand's title."""

_TEXT_PAD = 1.2
_FEWEST_LINES = 2
_LEVELS_HEIGHT = 4.0
_TRACK = 1.3
_CHANNEL_BEFORE = 2.0
_CHANNEL_AFTER = 2.8
"""Room for an arrow's head."""
_GUTTER = 2.4
_PORT = 1.8
"""How far from the middle of a side arrows come in and leave."""
_BESIDE = 2.0


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its upper left corner."""

    left: float
    top: float
    width: float
    height: float

    @property
    def middle(self) -> Spot:
        """Return the centre as x and y."""
        return (self.left + self.width / 2, self.top + self.height / 2)


@dataclass(frozen=True, slots=True)
class MapSheet:
    """Everything measured."""

    width: float
    height: float
    boxes: Mapping[str, Box]
    """By lesson, in teaching order."""
    lines: Mapping[str, tuple[str, ...]]
    """The title of each lesson, broken to fit."""
    lane_boxes: tuple[Box, ...]
    lane_lines: tuple[tuple[str, ...], ...]
    level_middles: tuple[float, ...]
    level_line: float
    """The base line of the levels above the columns."""
    ways: tuple[Way, ...]
    """The points of each route."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """Where columns, rows and what lies before them begin."""

    channels: Sequence[float]
    columns: Sequence[float]
    gutters: Sequence[float]
    rows: Sequence[float]
    heights: Sequence[float]
    lane_starts: frozenset[int]

    def stop(self, row: int, column: int) -> Box:
        return Box(self.columns[column], self.rows[row], STOP_WIDTH, self.heights[row])


def measure_map(
    grid: MapGrid, titles: Mapping[str, str], routes: Sequence[Route], tracks: Tracks
) -> MapSheet:
    """Turn cells and routes into millimetres."""
    lines = {
        name: wrap_text(titles[name], STOP_WIDTH - 2 * _TEXT_PAD, LETTER) for name in grid.cells
    }
    head = _measure_head(grid)
    lane_lines = tuple(
        wrap_text(lane.strand.title, head - 2 * LANE_PAD, LANE_LETTER) for lane in grid.lanes
    )
    scale = _measure_scale(grid, tracks, _row_heights(grid, lines, lane_lines), head)
    width = scale.channels[-1] + LANE_PAD
    boxes = {name: scale.stop(cell.row, cell.column) for name, cell in grid.cells.items()}
    return MapSheet(
        width=width,
        height=scale.gutters[-1] + _gutter_width(len(scale.rows), grid, tracks),
        boxes=boxes,
        lines=lines,
        lane_boxes=tuple(_lane_box(lane, scale, width) for lane in grid.lanes),
        lane_lines=lane_lines,
        level_middles=tuple(left + STOP_WIDTH / 2 for left in scale.columns),
        level_line=_LEVELS_HEIGHT - 0.8,
        ways=tuple(
            tuple(_find_place(point, route.source, scale, tracks) for point in route.points)
            for route in routes
        ),
    )


def _measure_head(grid: MapGrid) -> float:
    """Return how wide the strands' titles stand: no word is cut, however long a language has it."""
    words = (word for lane in grid.lanes for word in lane.strand.title.split())
    widest = max((measure_text(word, LANE_LETTER) for word in words), default=0.0)
    return max(LANE_HEAD, min(widest + 2 * LANE_PAD, _WIDEST_HEAD))


def _row_heights(
    grid: MapGrid, lines: Mapping[str, tuple[str, ...]], lane_lines: Iterable[tuple[str, ...]]
) -> list[float]:
    most = [_FEWEST_LINES] * grid.rows
    for name, cell in grid.cells.items():
        most[cell.row] = max(most[cell.row], len(lines[name]))
    heights = [count * LINE_HEIGHT * LETTER + 2 * _TEXT_PAD for count in most]
    for lane, words in zip(grid.lanes, lane_lines, strict=True):
        own = sum(heights[lane.first_row : lane.first_row + lane.rows])
        heights[lane.first_row] += max(0.0, len(words) * LINE_HEIGHT * LANE_LETTER - own)
    return heights


def _measure_scale(grid: MapGrid, tracks: Tracks, heights: list[float], head: float) -> _Scale:
    channel_widths = [
        _CHANNEL_BEFORE + _CHANNEL_AFTER + _TRACK * len(tracks.channels.get(index, ()))
        for index in range(len(grid.levels))
    ]
    gutter_widths = [_gutter_width(index, grid, tracks) for index in range(grid.rows)]
    steps = (width + STOP_WIDTH for width in channel_widths)
    channels = list(accumulate(steps, initial=head))
    drops = (gap + height for gap, height in zip(gutter_widths, heights, strict=True))
    gutters = list(accumulate(drops, initial=_LEVELS_HEIGHT))
    return _Scale(
        channels=channels,
        columns=[left + width for left, width in zip(channels, channel_widths, strict=False)],
        gutters=gutters,
        rows=[top + width for top, width in zip(gutters, gutter_widths, strict=False)],
        heights=heights,
        lane_starts=grid.lane_starts,
    )


def _gutter_width(index: int, grid: MapGrid, tracks: Tracks) -> float:
    room = 2 * LANE_PAD if index in grid.lane_starts else 0.0
    return room + _GUTTER + _TRACK * len(tracks.gutters.get(index, ()))


def _lane_box(lane: Lane, scale: _Scale, width: float) -> Box:
    last = lane.first_row + lane.rows - 1
    top = scale.rows[lane.first_row] - LANE_PAD
    return Box(0, top, width, scale.rows[last] + scale.heights[last] + LANE_PAD - top)


def _find_place(point: Point, source: str, scale: _Scale, tracks: Tracks) -> Spot:
    return (_find_x(point, source, scale, tracks), _find_y(point, source, scale, tracks))


def _find_x(point: Point, source: str, scale: _Scale, tracks: Tracks) -> float:
    if point.across is Across.CHANNEL:
        track = tracks.channels[point.column][source]
        return scale.channels[point.column] + _CHANNEL_BEFORE + track * _TRACK
    offsets = {Across.LEFT: 0.0, Across.RIGHT: STOP_WIDTH, Across.BESIDE: STOP_WIDTH / 2 + _BESIDE}
    return scale.columns[point.column] + offsets.get(point.across, STOP_WIDTH / 2)


def _find_y(point: Point, source: str, scale: _Scale, tracks: Tracks) -> float:
    if point.down is Down.GUTTER:
        lead = LANE_PAD if point.row in scale.lane_starts else 0.0
        track = tracks.gutters[point.row][source]
        return scale.gutters[point.row] + lead + _GUTTER / 2 + (track + 0.5) * _TRACK
    top, height = scale.rows[point.row], scale.heights[point.row]
    offsets = {Down.TOP: 0.0, Down.BOTTOM: height}
    ports = {Down.ENTRY: -_PORT, Down.EXIT: _PORT}
    return top + offsets.get(point.down, height / 2 + ports.get(point.down, 0.0))
