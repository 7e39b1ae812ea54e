"""A contact sheet: every figure of a course under its title, to look them over at a glance."""

from markupsafe import Markup

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import Labels
from builder.language import Language, language_of
from builder.publishing.cards.pdf import open_press
from builder.publishing.cards.proved import write_proved

_ROOM = Room(width_mm=74, tallest_mm=36, letter_mm=2.6)
_STYLE = """
@page { size: 420mm 297mm; margin: 12mm }
@font-face { font-family: "Source Sans 3"; font-weight: 400;
  src: url(course:/fonts/SourceSans3-Regular.ttf) }
@font-face { font-family: "Source Sans 3"; font-weight: 600;
  src: url(course:/fonts/SourceSans3-Semibold.ttf) }
body { margin: 0; font: 400 9pt "Source Sans 3"; color: #1d2b2a }
h1 { font-weight: 600; font-size: 16pt; margin: 0 0 4mm }
div { display: inline-block; vertical-align: top; width: 76mm; height: 46mm; margin: 0 1mm 2mm 0;
  border-top: 0.3mm solid #1d2b2a }
p { margin: 0.5mm 0 1mm; font-weight: 600 }
svg { display: block }
"""


def make_sheet(course: Course) -> bytes:
    """Return all figures of a course as one PDF of A3 sheets."""
    language = language_of(course.settings.language)
    cells = Markup("\n").join(_cell(lesson, language) for lesson in course.lessons)
    head = Markup("<html lang={1}><title>{0}</title><body><h1>{0}</h1>")
    title = language.say("{course}: figures", course=course.settings.title)
    html = head.format(title, language.tag) + cells
    return write_proved(open_press().lay_out(html, _STYLE), "the sheet of figures")


def _cell(lesson: Lesson, language: Language) -> Markup:
    if lesson.figure is None:
        words = language.say("{lesson}: no figure", lesson=lesson.title)
        return Markup("<div><p>{}</p></div>").format(words)
    pair = draw_pair(lesson.figure, f"sheet-{lesson.id}", _ROOM, Labels(language))
    svg = Markup(pair.svg)  # noqa: S704  # by us
    return Markup("<div><p>{}</p>{}</div>").format(lesson.title, svg)
