"""Charts on one sheet of paper: the course map for the wall, and what coaches look up."""

import re
from dataclasses import dataclass

from markupsafe import Markup

from builder.course.course import Course
from builder.drawing.air_chart import draw_air_chart
from builder.drawing.course_map import draw_course_map
from builder.drawing.demand_chart import draw_demand_chart
from builder.language import language_of
from builder.sums.paper import WALL_SHEETS_MM

_VIEW_BOX = re.compile(r'viewBox="([^"]+)"')
_MARGIN_MM = 9
_HEAD_MM = 20
_FOOT_MM = 8
_STYLE = """
@font-face { font-family: "Source Sans 3"; font-weight: 400;
  src: url(course:/fonts/SourceSans3-Regular.ttf) }
@font-face { font-family: "Source Sans 3"; font-weight: 600;
  src: url(course:/fonts/SourceSans3-Semibold.ttf) }
@font-face { font-family: "Source Sans 3"; font-weight: 700;
  src: url(course:/fonts/SourceSans3-Bold.ttf) }
body { margin: 0; font: 400 9pt "Source Sans 3"; color: #000 }
h1 { font-weight: 700; font-size: 20pt; line-height: 1.1; margin: 0 }
p { margin: 0 } .caution { font-weight: 600; position: absolute; bottom: 0 }
.map { position: absolute } .map svg { display: block; width: 100%; height: 100% }
a { color: inherit; text-decoration: none }
"""


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart as it is printed, told whole: nothing else shapes it but the press."""

    html: str
    style: str


def print_chart(chart: Chart) -> bytes:
    """Return a chart as PDF; the PDF engine is loaded here and not before."""
    from builder.publishing.cards.pdf import open_press  # noqa: PLC0415  # loads in 0.4 s
    from builder.publishing.cards.proved import write_proved  # noqa: PLC0415  # as above

    return write_proved(open_press().lay_out(chart.html, chart.style), "a chart")


def write_wall_chart(course: Course, sheet: str) -> Chart:
    """Return the map of a course without circles, on a sheet of WALL_SHEETS_MM."""
    drawing = draw_course_map(course, href="#{}".format)
    return _write(course, sheet, drawing, course.settings.title, course.settings.summary)


def write_air_chart(course: Course, sheet: str) -> Chart:
    """Return how big a breath each tempo needs, on a sheet of WALL_SHEETS_MM."""
    title = language_of(course.settings.language).say("How big a breath")
    return _write(course, sheet, draw_air_chart(course, blocks_across=3), title, _about(course))


def write_demand_chart(course: Course, sheet: str) -> Chart:
    """Return what each lesson asks, on a sheet of WALL_SHEETS_MM."""
    title = language_of(course.settings.language).say("What each lesson asks")
    return _write(course, sheet, draw_demand_chart(course), title, _about(course))


def _about(course: Course) -> str:
    language = language_of(course.settings.language)
    return language.say("{course}: for coaches", course=course.settings.title)


def _write(course: Course, sheet: str, drawing: str, title: str, about: str) -> Chart:
    """Lay a drawing out on one sheet, turned as the drawing lies, with the caution below it."""
    width, height = _turn(WALL_SHEETS_MM[sheet], drawing)
    room = width - 2 * _MARGIN_MM, height - 2 * _MARGIN_MM - _HEAD_MM - _FOOT_MM
    size = f"@page {{ size: {width}mm {height}mm; margin: {_MARGIN_MM}mm }}"
    body = f"body {{ height: {height - 2 * _MARGIN_MM}mm; position: relative }}"
    place = f".map {{ top: {_HEAD_MM}mm; left: 0; width: {room[0]}mm; height: {room[1]}mm }}"
    upright = drawing.replace("<svg ", '<svg preserveAspectRatio="xMidYMin" ', 1)
    svg = Markup(upright)  # noqa: S704  # drawn by us
    html = Markup(
        '<html lang="{language}"><title>{title}</title><body><h1>{title}</h1><p>{about}</p>'
        '<div class="map">{svg}</div><p class="caution">{caution} {studio}</p>'
    ).format(
        language=course.settings.language,
        title=title,
        about=about,
        svg=svg,
        caution=course.settings.caution,
        studio=course.settings.studio.name,
    )
    return Chart(str(html), "\n".join((_STYLE, size, body, place)))


def _turn(sheet_mm: tuple[int, int], drawing: str) -> tuple[int, int]:
    """Return a sheet's width and height, upright where the map is higher than it is wide."""
    _, _, width, height = map(float, _VIEW_BOX.findall(drawing)[0].split())
    return sheet_mm if width > height else sheet_mm[::-1]
