"""A client sheet as HTML: the template with drawings in the size of its type."""

from functools import cache

from markupsafe import Markup

from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import Labels
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.drawing.trend_chart import draw_trend_chart
from builder.drawing.trend_scale import TrendRoom
from builder.publishing.cards.qr import draw_qr
from builder.publishing.client_sheet.setting import SheetSetting
from builder.publishing.client_sheet.view import SheetForm, SheetLesson, SheetView
from builder.publishing.environment import open_templates
from builder.resources import find_templates
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH, Paper

_TEMPLATES = "sheets"
_SMALL_PRINT = 0.9
_SEEN_SHARE = 0.34
"""How much of the width figure and strip take on a regular sheet, as the style sheet has it."""
_RISE = 1.4
_CHARTS_ABREAST = 2.0
_GAP = 1.2
"""After each chart, in letters, as the style sheet has it."""
_FOOT_LETTERS = 3.2
_FLOOR_POINTS = {SheetForm.REGULAR: 9.0, SheetForm.LARGE: 18.0}


def find_floor_points(form: SheetForm) -> float:
    """Return the smallest type that may stand on a sheet."""
    return _FLOOR_POINTS[form]


def write_sheet(view: SheetView, setting: SheetSetting) -> str:
    """Write a sheet in one setting."""
    form, points = setting.form, setting.points
    letter = points / POINTS_PER_INCH * MM_PER_INCH
    width = view.paper.width_mm - 2 * view.paper.margin_mm
    is_large = form is SheetForm.LARGE
    seen = width if is_large else width * _SEEN_SHARE
    room = Room(seen, setting.figure_lines * letter, letter, has_one_text=True)
    labels = Labels(view.language)
    abreast = 1.0 if is_large else max(_CHARTS_ABREAST, float(len(view.trends)))
    plot_mm = setting.plot_lines * letter
    chart = TrendRoom(width / abreast - _GAP * letter, plot_mm, letter)
    return (
        open_templates(_TEMPLATES)
        .get_template("client.html.j2")
        .render(
            sheet=view,
            form=f"{form.value} tight" if setting.is_tight else form.value,
            points=points,
            small_points=max(find_floor_points(form), points * _SMALL_PRINT),
            figures=_draw_figures(view, room, labels),
            strips={
                lesson.id: Markup(  # noqa: S704  # drawn by us
                    draw_tempo_strip(lesson.tempo, seen, letter, _RISE, labels)
                )
                for lesson in view.lessons
                if lesson.tempo
            },
            codes=_draw_codes(view),
            charts=[
                Markup(  # noqa: S704  # drawn by us
                    draw_trend_chart(trend.title, trend.unit, trend.lines, view.language, chart)
                )
                for trend in view.trends
            ],
            **view.language.sayings,
        )
    )


@cache
def read_style(paper: Paper, points: float) -> str:
    """Return the style sheet of a sheet on a paper."""
    margin = paper.margin_mm
    foot = margin + _FOOT_LETTERS * points / POINTS_PER_INCH * MM_PER_INCH / 2
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    page = f"@page {{ {size}; margin: {margin}mm {margin}mm {foot:.1f}mm {margin}mm }}"
    sheet = (find_templates() / _TEMPLATES / "client.css").read_text(encoding="utf-8")
    return "\n".join((sheet, page))


def _draw_figures(view: SheetView, room: Room, labels: Labels) -> dict[str, Markup]:
    return {
        lesson.id: Markup(  # noqa: S704  # drawn by us
            draw_pair(lesson.figure, f"pair-{lesson.number}", room, labels).svg
        )
        for lesson in view.lessons
        if lesson.figure
    }


def _draw_codes(view: SheetView) -> dict[str, Markup]:
    return {lesson.id: _draw_code(view, lesson) for lesson in view.lessons if lesson.address}


def _draw_code(view: SheetView, lesson: SheetLesson) -> Markup:
    page = lesson.address.partition("#")[0]
    return draw_qr(lesson.address, view.language.say("QR code of {address}", address=page))
