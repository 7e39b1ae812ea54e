"""The demand chart: what every lesson asks on each axis, as shade and number."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.demand import AXES, Demand, hardest
from builder.course.lesson import Lesson
from builder.drawing.axis_words import name_axes
from builder.drawing.lettering import measure_text, wrap_text
from builder.drawing.svg import Frame, Svg, element, finish
from builder.drawing.table import (
    BASE,
    GAP,
    LETTER,
    PAD,
    PIXELS_PER_MM,
    ROW,
    Style,
    shade_cell,
    write_words,
)
from builder.language import Language, language_of, mark

_LEAST_CELL = 13.0
_SHADE_STEP = 0.08
_LEGEND = (
    mark("0 asks least; a stronger shade asks more."),
    mark("A frame and +1: one more than the hardest of the lessons it builds on."),
)


@dataclass(frozen=True, slots=True)
class _Columns:
    """The heads of the columns, and how wide they are."""

    heads: tuple[str, ...]
    """The axes in the language of the chart."""
    names: float
    """The width of the first column."""

    @property
    def cell(self) -> float:
        """Return the width of a number's column, in which no head touches the next."""
        widest = max(measure_text(head, LETTER) for head in self.heads)
        return max(_LEAST_CELL, widest + 2 * GAP)

    @property
    def width(self) -> float:
        """Return the width of all columns."""
        return self.names + self.cell * len(self.heads) + PAD

    def left(self, index: int) -> float:
        """Return where the column of an axis begins."""
        return self.names + index * self.cell


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of the chart, with the place of its upper edge."""

    top: float
    lesson: Lesson | None
    strand_title: str


def draw_demand_chart(course: Course, language: Language | None = None) -> str:
    """Draw the chart, strand by strand, a row for each lesson.

    It speaks the language of the course unless another is given.
    """
    language = language or language_of(course.settings.language)
    rows = _place_rows(course)
    axes = name_axes(language)
    columns = _Columns(tuple(axes[axis] for axis in AXES), _names_width(course))
    end = ROW * (len(rows) + 1)
    legend = [language.say(text) for text in _LEGEND]
    lines = [line for text in legend for line in wrap_text(text, columns.width - 2 * PAD, LETTER)]
    frame = Frame(
        "demand-chart",
        columns.width,
        end + (len(lines) + 0.5) * ROW,
        language.say("Demand chart: what each lesson asks"),
        " ".join((_describe(course, columns, language), *legend)),
        role="group",
        pixels_per_unit=PIXELS_PER_MM,
    )
    table = element(
        "g",
        _draw_head(columns, language),
        *(part for row in rows for part in _draw_row(course, row, columns)),
        role="table",
        aria_label=frame.title,
    )
    notes = (
        write_words(line, PAD, end + (index + 0.5) * ROW + BASE) for index, line in enumerate(lines)
    )
    return finish(frame, table, *notes)


def _describe(course: Course, columns: _Columns, language: Language) -> str:
    return language.say_many(
        "Rank of {count} lesson on {axes} axes: {names}.",
        "Ranks of {count} lessons on {axes} axes: {names}.",
        len(course.lessons),
        axes=language.number(len(columns.heads)),
        names=", ".join(columns.heads),
    )


def _place_rows(course: Course) -> list[_Row]:
    entries = [
        (lesson, strand.title)
        for strand in course.vocabulary.strands.values()
        for lesson in (None, *course.lessons_of(strand.id))
        if course.lessons_of(strand.id)
    ]
    return [_Row(ROW * (index + 1), lesson, title) for index, (lesson, title) in enumerate(entries)]


def _names_width(course: Course) -> float:
    """Return the width of the widest name; nothing is cut or wrapped."""
    names = [lesson.title for lesson in course.lessons]
    names += [strand.title for strand in course.vocabulary.strands.values()]
    widest = max((measure_text(name, LETTER) for name in names), default=0.0)
    return 4 * PAD + widest


def _draw_head(columns: _Columns, language: Language) -> Svg:
    style = Style(600, "middle", "columnheader")
    heads = (
        write_words(head, columns.left(index) + columns.cell / 2, BASE, style)
        for index, head in enumerate(columns.heads)
    )
    corner = write_words(language.say("lesson"), PAD, BASE, Style(600, role="columnheader"))
    return element("g", corner, *heads, role="row")


def _draw_row(course: Course, row: _Row, columns: _Columns) -> Iterator[Svg]:
    base = row.top + BASE
    if row.lesson is None:
        title = write_words(row.strand_title, PAD, base, Style(700, role="rowheader"))
        yield element("g", title, role="row")
        return
    demand = course.demands[row.lesson.id]
    rises = _find_rises(course, row.lesson, demand)
    cells = (
        _draw_cell(rank, rises.get(axis, 0), (columns.left(index), row.top), columns.cell)
        for index, (axis, rank) in enumerate(zip(AXES, demand.ranks, strict=True))
    )
    name = write_words(row.lesson.title, 2 * PAD, base, Style(role="rowheader"))
    yield element("g", name, *cells, class_="lesson", data_lesson=row.lesson.id, role="row")


def _find_rises(course: Course, lesson: Lesson, demand: Demand) -> dict[str, int]:
    """Return how far each axis rises over what came before; a first lesson has no before."""
    befores = course.graph[lesson.id]
    return demand.risen_over(hardest(course.demands[name] for name in befores)) if befores else {}


def _draw_cell(rank: int, rise: int, corner: tuple[float, float], width: float) -> Svg:
    """Shade a cell by its rank; frame it and say by how much where the rank rises."""
    left, top = corner
    opacity = rank * _SHADE_STEP
    cell = shade_cell(left, top, (width, ROW), opacity, is_framed=rise > 0)
    words = f"{rank} +{rise}" if rise else str(rank)
    style = Style(600 if rise else 400, "middle")
    return element("g", cell, write_words(words, left + width / 2, top + BASE, style), role="cell")
