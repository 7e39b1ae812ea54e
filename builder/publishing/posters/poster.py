"""What is on a poster, as HTML for the engine: title, place in the course, figure, tempo strip."""

from dataclasses import dataclass
from functools import cache

from markupsafe import Markup

from builder.course.course import Course
from builder.course.figure import Figure
from builder.course.lesson import Lesson
from builder.course.tempo import Tempo
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import labels_in
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from builder.publishing.environment import open_templates
from builder.publishing.views.inline import no_link, strip_tags
from builder.publishing.views.lesson_in_words import view_lesson
from builder.resources import find_templates

_LONG_TITLE = 26
"""From so many letters on, a title is set smaller, so that three lines hold it."""
_STRIP_LETTER_MM = 6.5


@dataclass(frozen=True, slots=True)
class Sheet:
    """The size of a poster in pixels, and the room of its drawings."""

    name: str
    width: int
    height: int
    room: Room
    strip_mm: float


WIDE = Sheet("wide", 1200, 630, Room(width_mm=146, tallest_mm=92, letter_mm=5), 190)
"""As pages shared elsewhere are shown (Open Graph names no size; this one is common practice)."""
TALL = Sheet("tall", 1200, 1600, Room(width_mm=270, tallest_mm=150, letter_mm=7), 270)
"""A book's cover."""


@dataclass(frozen=True, slots=True)
class Poster:
    """A poster that is ready to be painted; the same values always give the same picture."""

    width: int
    height: int
    html: str
    style: str


def make_course_poster(course: Course, sheet: Sheet = WIDE) -> Poster:
    """Lay out the poster of a course, with the first figure and the first tempo it has."""
    settings = course.settings
    figures = (lesson.figure for lesson in course.lessons if lesson.figure)
    tempos = (lesson.drill.tempo for lesson in course.lessons if lesson.drill.tempo)
    say_many = language_of(settings.language).say_many
    words = {
        "where": say_many("{count} lesson", "{count} lessons", len(course.lessons)),
        "title": settings.title,
        "summary": settings.summary,
        "foot": "",
    }
    return _lay_out(course, sheet, words, next(figures, None), next(tempos, None))


def make_lesson_poster(course: Course, lesson: Lesson) -> Poster:
    """Lay out the poster of a lesson."""
    view = view_lesson(course, lesson, no_link)
    words = {
        "where": word_place(course, lesson),
        "title": view.title,
        "summary": strip_tags(view.summary),
        "foot": course.settings.title,
    }
    return _lay_out(course, WIDE, words, lesson.figure, lesson.drill.tempo)


def word_place(course: Course, lesson: Lesson) -> str:
    """Say where in the course a lesson stands."""
    level = language_of(course.settings.language).say("level {level}", level=lesson.level)
    return f"{lesson.strand.title}, {level}"


def _lay_out(
    course: Course, sheet: Sheet, words: dict[str, str], figure: Figure | None, tempo: Tempo | None
) -> Poster:
    settings = course.settings
    language = language_of(settings.language)
    labels = labels_in(settings.language)
    colours = settings.colours
    drawn = draw_pair(figure, "pair", sheet.room, labels).svg if figure else ""
    strip = draw_tempo_strip(tempo, sheet.strip_mm, _STRIP_LETTER_MM, labels=labels)
    html = (
        open_templates("posters")
        .get_template("poster.html.j2")
        .render(
            **words,
            studio=settings.studio.name,
            language=language,
            sheet=sheet,
            is_long=len(words["title"]) > _LONG_TITLE,
            figure=_ink(drawn, colours.ink),
            strip=_ink(strip, colours.accent),
        )
    )
    values = (("ink", colours.ink), ("accent", colours.accent), ("paper", colours.paper))
    own = "; ".join(f"--{name}: {value}" for name, value in values)
    page = f"@page {{ size: {sheet.width}px {sheet.height}px; margin: 0 }} html {{ {own} }}"
    return Poster(sheet.width, sheet.height, html, f"{page}\n{_read_style()}")


def _ink(drawing: str, colour: str) -> Markup:
    """Give a drawing of ours its colour, which the engine doesn't take from the text around it."""
    return Markup(drawing.replace("currentColor", colour))  # noqa: S704  # by us


@cache
def _read_style() -> str:
    return (find_templates() / "posters" / "poster.css").read_text(encoding="utf-8")
