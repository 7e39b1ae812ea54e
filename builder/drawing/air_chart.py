"""The air chart: each tempo against each effort, the share of capacity as shade and number."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.reference_body import ReferenceBody
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort
from builder.drawing.lettering import measure_text, wrap_text
from builder.drawing.svg import Frame, Svg, element, finish
from builder.drawing.table import (
    BASE,
    DARKEST,
    LETTER,
    PAD,
    PIXELS_PER_MM,
    ROW,
    Style,
    shade_cell,
    write_words,
)
from builder.sums.air import AirShare, BreathSize, find_air_share

_CELL = 15.0
_CELL_HEIGHT = 7.5
_SMALL = 2.1
_SMALL_BASE = 6.4
_LOWER = 0.8
"""How much lower words stand in a high cell than in a row."""
_BLOCK_GAP = 4.0
_SIGNS = {BreathSize.EASY: "", BreathSize.BIG: " !", BreathSize.TOO_BIG: " !!"}
_LEGEND = (
    "Each number: the breath needed, in % of what the body can breathe in by prediction.",
    "! from 50 %: too big for sets of a minute. !! from 100 %: can't be kept. Limits are ours.",
    "Averages of many people, no finding about anybody; licensed clinicians come first.",
    "A frame: lessons of this course stand here.",
)


@dataclass(frozen=True, slots=True)
class _Grid:
    """The rows and columns that each body's block has, and the lessons in each cell."""

    tempos: tuple[Tempo, ...]
    efforts: tuple[Effort, ...]
    bodies: tuple[ReferenceBody, ...]
    lessons: Mapping[tuple[Tempo, str], tuple[Lesson, ...]]
    """By tempo and effort."""

    @property
    def label_width(self) -> float:
        """Return the room for the widest tempo."""
        words = ["tempo", *map(str, self.tempos)]
        return 2 * PAD + max(measure_text(word, LETTER) for word in words)

    @property
    def block_size(self) -> tuple[float, float]:
        """Return the width and height of one body's block."""
        heads = max((measure_text(_name(body), LETTER) for body in self.bodies), default=0.0)
        width = max(self.label_width + _CELL * len(self.efforts), heads) + PAD
        return width, 2 * ROW + _CELL_HEIGHT * len(self.tempos)


def draw_air_chart(course: Course, *, blocks_across: int = 1) -> str:
    """Draw the chart of a course's tempos, efforts and bodies, a block for each body.

    Cells that lessons stand in are framed, and their names follow below.
    """
    grid = _make_grid(course)
    width, height = grid.block_size
    across = min(blocks_across, len(grid.bodies))
    whole = across * (width + _BLOCK_GAP) - _BLOCK_GAP
    rows = -(-len(grid.bodies) // across)
    end = rows * (height + _BLOCK_GAP)
    notes = [
        line for note in _list_notes(grid) for line in wrap_text(note, whole - 2 * PAD, LETTER)
    ]
    frame = Frame(
        "air-chart",
        whole,
        end + (len(notes) + 0.5) * ROW,
        "Air chart: how big a breath each tempo needs",
        f"{len(grid.tempos)} tempos against {len(grid.efforts)} efforts for "
        f"{', '.join(body.name for body in grid.bodies)}. " + " ".join(_LEGEND),
        role="group",
        pixels_per_unit=PIXELS_PER_MM,
    )
    blocks = (
        _draw_block(
            grid,
            body,
            (index % across * (width + _BLOCK_GAP), index // across * (height + _BLOCK_GAP)),
        )
        for index, body in enumerate(grid.bodies)
    )
    lines = (write_words(line, PAD, end + n * ROW + BASE) for n, line in enumerate(notes))
    return finish(frame, *blocks, *lines)


def _make_grid(course: Course) -> _Grid:
    lessons: dict[tuple[Tempo, str], tuple[Lesson, ...]] = {}
    for lesson in course.lessons:
        if lesson.drill.tempo:
            cell = (lesson.drill.tempo, lesson.drill.effort.id)
            lessons[cell] = (*lessons.get(cell, ()), lesson)
    tempos = {tempo for tempo, _ in lessons}
    return _Grid(
        tuple(sorted(tempos, key=lambda tempo: (tempo.cycle_seconds, tempo.phases))),
        tuple(sorted(course.vocabulary.efforts.values(), key=lambda effort: effort.met)),
        course.reference_bodies,
        lessons,
    )


def _list_notes(grid: _Grid) -> Iterator[str]:
    """Yield the legend, whom the numbers come from, and which lessons stand in which cell."""
    yield from _LEGEND
    for tempo in grid.tempos:
        for effort in grid.efforts:
            names = [lesson.title for lesson in grid.lessons.get((tempo, effort.id), ())]
            if names:
                yield f"{tempo} {effort.id}: {' · '.join(names)}"
    for tempo in grid.tempos[:1]:
        share = find_air_share(tempo.cycle_seconds, grid.efforts[0].met, grid.bodies[0])
        sources = [
            f"{cited.authors} {cited.year}" for cited in share.citations if not cited.is_ours
        ]
        yield f"After {', '.join(sources)}."


def _name(body: ReferenceBody) -> str:
    return f"{body.name}, {body.age_years:g} years, {body.height_cm:g} cm, {body.weight_kg:g} kg"


def _draw_block(grid: _Grid, body: ReferenceBody, corner: tuple[float, float]) -> Svg:
    left, top = corner
    name = _name(body)
    head = write_words(name, left + PAD, top + BASE, Style(700))
    first = top + 2 * ROW
    rows = (
        _draw_row(grid, body, tempo, (left, first + n * _CELL_HEIGHT))
        for n, tempo in enumerate(grid.tempos)
    )
    table = element(
        "g", _draw_head(grid, left, top + ROW), *rows, role="table", aria_label=f"Breath of {name}"
    )
    return element("g", head, table, data_body=body.name)


def _draw_head(grid: _Grid, left: float, top: float) -> Svg:
    heads = (
        write_words(
            f"{effort.id} {effort.met:g}",
            left + grid.label_width + (index + 0.5) * _CELL,
            top + BASE,
            Style(600, "middle", "columnheader"),
        )
        for index, effort in enumerate(grid.efforts)
    )
    corner = write_words("tempo", left + PAD, top + BASE, Style(600, role="columnheader"))
    return element("g", corner, *heads, role="row")


def _draw_row(grid: _Grid, body: ReferenceBody, tempo: Tempo, corner: tuple[float, float]) -> Svg:
    left, top = corner
    style = Style(600, role="rowheader")
    name = write_words(str(tempo), left + PAD, top + BASE + _LOWER, style)
    cells = (
        _draw_cell(
            find_air_share(tempo.cycle_seconds, effort.met, body),
            grid.lessons.get((tempo, effort.id), ()),
            (left + grid.label_width + index * _CELL, top),
        )
        for index, effort in enumerate(grid.efforts)
    )
    return element("g", name, *cells, role="row", data_tempo=str(tempo))


def _draw_cell(share: AirShare, lessons: Sequence[Lesson], corner: tuple[float, float]) -> Svg:
    """Shade a cell by its share; frame it and count the lessons where some stand in it."""
    left, top = corner
    middle = left + _CELL / 2
    size = (_CELL, _CELL_HEIGHT)
    shade = shade_cell(left, top, size, share.share * DARKEST, is_framed=bool(lessons))
    style = Style(400 if share.size is BreathSize.EASY else 600, "middle")
    words = f"{share.percent}{_SIGNS[share.size]}"
    parts = [shade, write_words(words, middle, top + BASE + (0 if lessons else _LOWER), style)]
    if lessons:
        count = f"{len(lessons)} lesson{'s' if len(lessons) > 1 else ''}"
        parts.append(
            write_words(count, middle, top + _SMALL_BASE, Style(400, "middle", "", _SMALL))
        )
    return element("g", *parts, role="cell")
