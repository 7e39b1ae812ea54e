"""The chapter of one lesson: what its page says, without what needs a screen or a network."""

import re

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.drawing.figure.ink import INK
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import labels_in
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from builder.publishing.book.places import SAFETY, find_lesson, strand_file
from builder.publishing.book.templates import render
from builder.publishing.views.lesson_in_words import view_lesson
from builder.publishing.views.ways import list_ways
from builder.sums.version import find_version

_ROOM = Room(width_mm=110, tallest_mm=56, letter_mm=4)
PAPER = "#fbfaf6"
"""What figures lie on, whatever colours a reading program gives the page: their fills are light
and their lines dark."""
_DESCRIBED = re.compile("</desc>")


def write_lesson(course: Course, lesson: Lesson) -> str:
    """Write a lesson's chapter; coach notes never get here."""
    language = language_of(course.settings.language)
    labels = labels_in(course.settings.language)
    view = view_lesson(course, lesson, find_lesson)
    version = find_version(course, lesson, Audience.CLIENT)
    return render(
        "lesson.xhtml",
        language,
        title=view.title,
        view=view,
        strand_href=strand_file(view.strand_id),
        safety_href=SAFETY,
        figure=_draw_figure(course, lesson),
        strip=Markup(draw_tempo_strip(lesson.drill.tempo, labels=labels)),  # noqa: S704  # by us
        ways=list_ways(language, view),
        version=version,
        newest=f"{view.address}#card={version}" if view.address else "",
    )


def _draw_figure(course: Course, lesson: Lesson) -> Markup:
    """Draw a lesson's figure on paper of its own; empty where it has none."""
    if lesson.figure is None:
        return Markup()
    svg = draw_pair(lesson.figure, "pair", _ROOM, labels_in(course.settings.language)).svg
    paper = f'</desc>\n<rect width="100%" height="100%" fill="{PAPER}"/>'
    inked = svg.replace('fill="currentColor"', f'fill="{INK}"', 1)
    return Markup(_DESCRIBED.sub(paper, inked, count=1))  # noqa: S704  # drawn by us
