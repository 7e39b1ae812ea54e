"""Where each lesson stands on the map: its strand's lane, a row of it, and its level's column."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.course.course import Course
from builder.course.graph import Graph, reduce_transitively
from builder.course.lesson import Lesson
from builder.course.vocabulary import Strand


@dataclass(frozen=True, slots=True)
class Cell:
    """A place in the grid, rows counted over all lanes."""

    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Lane:
    """The rows of one strand."""

    strand: Strand
    first_row: int
    rows: int


@dataclass(frozen=True)
class MapGrid:
    """All stops in their cells, and the arrows between them."""

    lanes: tuple[Lane, ...]
    levels: tuple[int, ...]
    """The level of each column."""
    cells: Mapping[str, Cell]
    """By lesson, in teaching order."""
    arrows: tuple[tuple[str, str], ...]
    """From a lesson to one that builds on it, those left out that a longer way tells."""

    @property
    def rows(self) -> int:
        """Return the number of rows of all lanes."""
        return sum(lane.rows for lane in self.lanes)

    @cached_property
    def lane_starts(self) -> frozenset[int]:
        """Return the first row of every lane."""
        return frozenset(lane.first_row for lane in self.lanes)

    def is_free(self, cells: Iterable[Cell]) -> bool:
        """Tell whether no lesson stands in any of these cells."""
        return self._taken.isdisjoint(cells)

    @cached_property
    def _taken(self) -> frozenset[Cell]:
        return frozenset(self.cells.values())


def lay_out(course: Course) -> MapGrid:
    """Give every lesson a cell of its own."""
    befores = reduce_transitively(course.graph)
    levels = tuple(sorted({lesson.level for lesson in course.lessons}))
    lanes: list[Lane] = []
    cells: dict[str, Cell] = {}
    turns = {name: turn for turn, name in enumerate(course.teaching_order)}
    row = 0
    for strand in course.vocabulary.strands.values():
        if members := _by_level(course, strand, turns):
            placed = _place(members, levels, befores)
            lanes.append(Lane(strand, row, 1 + max(cell.row for cell in placed.values())))
            cells |= {name: Cell(row + cell.row, cell.column) for name, cell in placed.items()}
            row += lanes[-1].rows
    order = course.teaching_order
    arrows = tuple((before, name) for name in order for before in befores[name])
    return MapGrid(tuple(lanes), levels, {name: cells[name] for name in order}, arrows)


def _by_level(course: Course, strand: Strand, turns: Mapping[str, int]) -> list[Lesson]:
    return sorted(course.lessons_of(strand.id), key=lambda lesson: (lesson.level, turns[lesson.id]))


def _place(members: list[Lesson], levels: tuple[int, ...], befores: Graph) -> dict[str, Cell]:
    """Keep a lesson in the row of what it builds on, so that most arrows run straight."""
    placed: dict[str, Cell] = {}
    for lesson in members:
        column = levels.index(lesson.level)
        nearest = max(
            (placed[name] for name in befores[lesson.id] if name in placed),
            key=lambda cell: (cell.column, -cell.row),
            default=Cell(0, column),
        )
        taken = {cell.row for cell in placed.values() if cell.column == column}
        free = [row for row in range(len(members)) if row not in taken]
        row = min(free, key=lambda row: (abs(row - nearest.row), row))
        placed[lesson.id] = Cell(row, column)
    return placed
