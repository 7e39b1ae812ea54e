"""The air chart: each tempo against each effort, the share of capacity as shade and number."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.reference_body import DEFAULT_BODIES, ReferenceBody
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort
from builder.drawing.labels import write_tempo
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
from builder.language import Language, language_of, mark
from builder.sums.air import AirShare, BreathSize, find_air_share
from builder.sums.citation import Citation
from builder.sums.everyday_units import CM_PER_INCH, INCHES_PER_FOOT, KG_PER_POUND

_CELL = 15.0
_CELL_HEIGHT = 7.5
_SMALL = 2.1
_SMALL_BASE = 6.4
_LOWER = 0.8
"""How much lower words stand in a high cell than in a row."""
_BLOCK_GAP = 4.0
_SIGNS = {BreathSize.EASY: "", BreathSize.BIG: " !", BreathSize.TOO_BIG: " !!"}
_LEGEND = (
    mark("Each number: the breath needed, in % of what the body can breathe in by prediction."),
    mark(
        "! from 50 %: too big for sets of a minute. !! from 100 %: can't be kept. Limits are ours."
    ),
    mark("Averages of many people, no finding about anybody; licensed clinicians come first."),
    mark("A frame: lessons of this course stand here."),
)
_OTHERS = " and others"
"""How a source of many authors ends in English."""


@dataclass(frozen=True, slots=True)
class _Grid:
    """The rows and columns that each body's block has, and the lessons in each cell."""

    tempos: tuple[Tempo, ...]
    efforts: tuple[Effort, ...]
    bodies: tuple[ReferenceBody, ...]
    lessons: Mapping[tuple[Tempo, str], tuple[Lesson, ...]]
    """By tempo and effort."""
    language: Language

    @property
    def label_width(self) -> float:
        """Return the room for the widest tempo."""
        words = [self.head, *(write_tempo(tempo, self.language) for tempo in self.tempos)]
        return 2 * PAD + max(measure_text(word, LETTER) for word in words)

    @property
    def head(self) -> str:
        """Return what stands over the tempos."""
        return self.language.say("tempo")

    @property
    def block_size(self) -> tuple[float, float]:
        """Return the width and height of one body's block."""
        heads = max((measure_text(self.name(body), LETTER) for body in self.bodies), default=0.0)
        width = max(self.label_width + _CELL * len(self.efforts), heads) + PAD
        return width, 2 * ROW + _CELL_HEIGHT * len(self.tempos)

    def name(self, body: ReferenceBody) -> str:
        """Return what stands over a body's block."""
        return self.language.say(
            "{body}, {age} years, {height}, {weight}",
            body=_name(body, self.language),
            age=self.language.number(body.age_years),
            height=_word_height(body.height_cm, self.language),
            weight=_word_weight(body.weight_kg, self.language),
        )


def draw_air_chart(
    course: Course, *, blocks_across: int = 1, language: Language | None = None
) -> str:
    """Draw the chart of a course's tempos, efforts and bodies, a block for each body.

    Cells that lessons stand in are framed, and their names follow below. The chart speaks the
    language of the course unless another is given.
    """
    grid = _make_grid(course, language or language_of(course.settings.language))
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
        grid.language.say("Air chart: how big a breath each tempo needs"),
        _describe(grid),
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


def _describe(grid: _Grid) -> str:
    say, say_many = grid.language.say, grid.language.say_many
    what = say(
        "{tempos} against {efforts} for {bodies}.",
        tempos=say_many("{count} tempo", "{count} tempos", len(grid.tempos)),
        efforts=say_many("{count} effort", "{count} efforts", len(grid.efforts)),
        bodies=", ".join(_name(body, grid.language) for body in grid.bodies),
    )
    return " ".join((what, *map(say, _LEGEND)))


def _make_grid(course: Course, language: Language) -> _Grid:
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
        language,
    )


def _list_notes(grid: _Grid) -> Iterator[str]:
    """Yield the legend, whom the numbers come from, and which lessons stand in which cell."""
    yield from map(grid.language.say, _LEGEND)
    for tempo in grid.tempos:
        for effort in grid.efforts:
            names = [lesson.title for lesson in grid.lessons.get((tempo, effort.id), ())]
            if names:
                tempo_text = write_tempo(tempo, grid.language)
                yield f"{tempo_text} {effort.id}: {' · '.join(names)}"
    for tempo in grid.tempos[:1]:
        share = find_air_share(tempo.cycle_seconds, grid.efforts[0].met, grid.bodies[0])
        sources = [
            f"{_name_authors(cited, grid.language)} {cited.year}"
            for cited in share.citations
            if not cited.is_ours
        ]
        yield grid.language.say("After {sources}.", sources=", ".join(sources))


def _name_authors(cited: Citation, language: Language) -> str:
    first = cited.authors.removesuffix(_OTHERS)
    has_others = first != cited.authors
    return language.say("{author} and others", author=first) if has_others else first


def _name(body: ReferenceBody, language: Language) -> str:
    """Return a body's name: the course's own word, or ours where the course names no bodies."""
    return language.say(body.name) if body in DEFAULT_BODIES else body.name


def _word_height(height_cm: float, language: Language) -> str:
    """Write a height as people of the language's country do: 175 cm, 5 ft 9 in."""
    if not language.has_inches:
        return language.say("{number} cm", number=language.number(height_cm))
    feet, inches = divmod(round(height_cm / CM_PER_INCH), INCHES_PER_FOOT)
    return language.say("{feet} ft {inches} in", feet=feet, inches=inches)


def _word_weight(weight_kg: float, language: Language) -> str:
    """Write a weight as people of the language's country do: 70 kg, 154 lb."""
    if not language.has_inches:
        return language.say("{number} kg", number=language.number(weight_kg))
    return language.say("{number} lb", number=round(weight_kg / KG_PER_POUND))


def _draw_block(grid: _Grid, body: ReferenceBody, corner: tuple[float, float]) -> Svg:
    left, top = corner
    name = grid.name(body)
    head = write_words(name, left + PAD, top + BASE, Style(700))
    first = top + 2 * ROW
    rows = (
        _draw_row(grid, body, tempo, (left, first + n * _CELL_HEIGHT))
        for n, tempo in enumerate(grid.tempos)
    )
    label = grid.language.say("Breath of {body}", body=name)
    table = element("g", _draw_head(grid, left, top + ROW), *rows, role="table", aria_label=label)
    return element("g", head, table, data_body=body.name)


def _draw_head(grid: _Grid, left: float, top: float) -> Svg:
    heads = (
        write_words(
            f"{effort.id} {grid.language.number(effort.met)}",
            left + grid.label_width + (index + 0.5) * _CELL,
            top + BASE,
            Style(600, "middle", "columnheader"),
        )
        for index, effort in enumerate(grid.efforts)
    )
    corner = write_words(grid.head, left + PAD, top + BASE, Style(600, role="columnheader"))
    return element("g", corner, *heads, role="row")


def _draw_row(grid: _Grid, body: ReferenceBody, tempo: Tempo, corner: tuple[float, float]) -> Svg:
    left, top = corner
    style = Style(600, role="rowheader")
    name = write_words(write_tempo(tempo, grid.language), left + PAD, top + BASE + _LOWER, style)
    cells = (
        _draw_cell(
            find_air_share(tempo.cycle_seconds, effort.met, body),
            _count(grid.lessons.get((tempo, effort.id), ()), grid.language),
            (left + grid.label_width + index * _CELL, top),
        )
        for index, effort in enumerate(grid.efforts)
    )
    return element("g", name, *cells, role="row", data_tempo=str(tempo))


def _count(lessons: Sequence[Lesson], language: Language) -> str:
    """Say how many lessons stand in a cell; nothing where none does."""
    return language.say_many("{count} lesson", "{count} lessons", len(lessons)) if lessons else ""


def _draw_cell(share: AirShare, count: str, corner: tuple[float, float]) -> Svg:
    """Shade a cell by its share; frame it where lessons stand in it, and say how many."""
    left, top = corner
    middle = left + _CELL / 2
    size = (_CELL, _CELL_HEIGHT)
    shade = shade_cell(left, top, size, share.share * DARKEST, is_framed=bool(count))
    style = Style(400 if share.size is BreathSize.EASY else 600, "middle")
    words = f"{share.percent}{_SIGNS[share.size]}"
    parts = [shade, write_words(words, middle, top + BASE + (0 if count else _LOWER), style)]
    if count:
        parts.append(
            write_words(count, middle, top + _SMALL_BASE, Style(400, "middle", "", _SMALL))
        )
    return element("g", *parts, role="cell")
