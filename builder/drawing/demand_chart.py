"""The demand chart: what every lesson asks on each axis, as shade and number."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.demand import AXES, Demand, hardest
from builder.course.lesson import Lesson
from builder.drawing.lettering import measure_text
from builder.drawing.svg import Frame, Svg, element, finish
from builder.drawing.table import (
    BASE,
    LETTER,
    PAD,
    PIXELS_PER_MM,
    ROW,
    Style,
    shade_cell,
    write_words,
)

_CELL = 13.0
_SHADE_STEP = 0.08
_LEGEND = (
    "0 asks least; a stronger shade asks more.",
    "A frame and +1: one more than the hardest of the lessons it builds on.",
)


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of the chart, with the place of its upper edge."""

    top: float
    lesson: Lesson | None
    strand_title: str


def draw_demand_chart(course: Course) -> str:
    """Draw the chart, strand by strand, a row for each lesson."""
    rows = _place_rows(course)
    label = _label_width(course)
    end = ROW * (len(rows) + 1)
    frame = Frame(
        "demand-chart",
        label + _CELL * len(AXES) + PAD,
        end + (len(_LEGEND) + 0.5) * ROW,
        "Demand chart: what each lesson asks",
        f"Ranks of {len(course.lessons)} lessons on {len(AXES)} axes: {', '.join(AXES)}. "
        + " ".join(_LEGEND),
        role="group",
        pixels_per_unit=PIXELS_PER_MM,
    )
    table = element(
        "g",
        _draw_head(label),
        *(part for row in rows for part in _draw_row(course, row, label)),
        role="table",
        aria_label=frame.title,
    )
    legend = (
        write_words(line, PAD, end + (index + 0.5) * ROW + BASE)
        for index, line in enumerate(_LEGEND)
    )
    return finish(frame, table, *legend)


def _place_rows(course: Course) -> list[_Row]:
    entries = [
        (lesson, strand.title)
        for strand in course.vocabulary.strands.values()
        for lesson in (None, *course.lessons_of(strand.id))
        if course.lessons_of(strand.id)
    ]
    return [_Row(ROW * (index + 1), lesson, title) for index, (lesson, title) in enumerate(entries)]


def _label_width(course: Course) -> float:
    """Return the width of the widest name; nothing is cut or wrapped."""
    names = [lesson.title for lesson in course.lessons]
    names += [strand.title for strand in course.vocabulary.strands.values()]
    widest = max((measure_text(name, LETTER) for name in names), default=0.0)
    return 4 * PAD + widest


def _draw_head(label: float) -> Svg:
    heads = (
        write_words(axis, label + (index + 0.5) * _CELL, BASE, Style(600, "middle", "columnheader"))
        for index, axis in enumerate(AXES)
    )
    corner = write_words("lesson", PAD, BASE, Style(600, role="columnheader"))
    return element("g", corner, *heads, role="row")


def _draw_row(course: Course, row: _Row, label: float) -> Iterator[Svg]:
    base = row.top + BASE
    if row.lesson is None:
        title = write_words(row.strand_title, PAD, base, Style(700, role="rowheader"))
        yield element("g", title, role="row")
        return
    demand = course.demands[row.lesson.id]
    rises = _find_rises(course, row.lesson, demand)
    cells = (
        _draw_cell(rank, rises.get(axis, 0), label + index * _CELL, row.top)
        for index, (axis, rank) in enumerate(zip(AXES, demand.ranks, strict=True))
    )
    name = write_words(row.lesson.title, 2 * PAD, base, Style(role="rowheader"))
    yield element("g", name, *cells, class_="lesson", data_lesson=row.lesson.id, role="row")


def _find_rises(course: Course, lesson: Lesson, demand: Demand) -> dict[str, int]:
    """Return how far each axis rises over what came before; a first lesson has no before."""
    befores = course.graph[lesson.id]
    return demand.risen_over(hardest(course.demands[name] for name in befores)) if befores else {}


def _draw_cell(rank: int, rise: int, left: float, top: float) -> Svg:
    """Shade a cell by its rank; frame it and say by how much where the rank rises."""
    opacity = rank * _SHADE_STEP
    cell = shade_cell(left, top, (_CELL, ROW), opacity, is_framed=rise > 0)
    words = f"{rank} +{rise}" if rise else str(rank)
    style = Style(600 if rise else 400, "middle")
    return element("g", cell, write_words(words, left + _CELL / 2, top + BASE, style), role="cell")
