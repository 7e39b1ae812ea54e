"""Trends of a sheet: both sides of a measure in one chart, and one plain sentence for each."""

from collections.abc import Iterable
from datetime import date

from markupsafe import Markup

from builder.course.vocabulary import Measure
from builder.drawing.trend_scale import TrendLine
from builder.language import Language
from builder.planning.measured_days import has_many_readers
from builder.planning.trends import Change, Comparison, Trend
from builder.publishing.client_sheet.languages import SpokenCourse
from builder.publishing.client_sheet.view import SheetTrend
from builder.publishing.views.inline import strip_tags
from builder.records.result import Side

MOST_CHARTS = 3
"""A sheet stays short (ours); measures that a rule judges come first."""


def view_trends(spoken: SpokenCourse, trends: Iterable[Trend]) -> tuple[SheetTrend, ...]:
    """Return the charts of measures that were read as numbers on two days and more."""
    groups: dict[tuple[str, str], list[Trend]] = {}
    for trend in trends:
        if trend.from_first:
            groups.setdefault((trend.measure.id, trend.lesson_id), []).append(trend)
    judged = sorted(groups.values(), key=lambda group: not any(map(_is_judged, group)))
    return tuple(_view(spoken, group) for group in judged[:MOST_CHARTS])


def _is_judged(trend: Trend) -> bool:
    return trend.from_first is not None and trend.from_first.change is not Change.UNJUDGED


def _view(spoken: SpokenCourse, group: list[Trend]) -> SheetTrend:
    measure = spoken.own.vocabulary.measures[group[0].measure.id]
    heading = _title(spoken, group[0], measure)
    return SheetTrend(
        strip_tags(heading),
        heading,
        measure.unit,
        tuple(_draw(trend, spoken.language) for trend in group),
        tuple(_say(trend, measure, spoken) for trend in group),
    )


def _title(spoken: SpokenCourse, trend: Trend, measure: Measure) -> Markup:
    """Name a measure, with its lesson where several record it."""
    title = spoken.set_apart(f"{measure.title[:1].upper()}{measure.title[1:]}")
    is_one_of_many = has_many_readers(spoken.original, measure.id)
    if not is_one_of_many or trend.lesson_id not in spoken.original.by_id:
        return title
    course = spoken.find_course(trend.lesson_id)
    lesson = spoken.set_apart(course.by_id[trend.lesson_id].title, course.settings.language)
    return spoken.language.say_html("{measure}, {lesson}", measure=title, lesson=lesson)


def _draw(trend: Trend, language: Language) -> TrendLine:
    points = tuple(
        (reading.day, reading.number) for reading in trend.readings if reading.number is not None
    )
    return TrendLine(points, name_side(trend.side, language), _find_scatter(trend, points))


def _find_scatter(trend: Trend, points: tuple[tuple[date, float], ...]) -> float | None:
    comparison = trend.from_first
    if comparison is None or not points:
        return None
    if comparison.scatter_share is not None:
        return comparison.scatter_share * points[0][1]
    return comparison.scatter_cm


def name_side(side: Side | None, language: Language) -> str:
    """Name a side of the body."""
    if side is None:
        return ""
    if side is Side.LEFT:
        return language.say_as("side of the body", "left")
    return language.say_as("side of the body", "right")


def _say(trend: Trend, measure: Measure, spoken: SpokenCourse) -> Markup:
    if trend.from_first is None:
        return Markup()
    said = _say_change(trend.from_first, measure, trend.newest.day, spoken)
    side = name_side(trend.side, spoken.language)
    return Markup("{}: {}").format(f"{side[:1].upper()}{side[1:]}", said) if side else said


def _say_change(
    comparison: Comparison, measure: Measure, newest: date, spoken: SpokenCourse
) -> Markup:
    language, unit = spoken.language, spoken.set_apart(measure.unit)
    values = {
        "before": Markup("{} {}").format(language.number(comparison.earlier), unit),
        "now": Markup("{} {}").format(language.number(comparison.later), unit),
        "day": language.short_date(comparison.earlier_day),
        "newest": language.short_date(newest),
    }
    match comparison.change:
        case Change.GREW:
            return language.say_html(
                "{before} on {day}, {now} on {newest}. That is more, and not just by chance.",
                **values,
            )
        case Change.SHRANK:
            return language.say_html(
                "{before} on {day}, {now} on {newest}. That is less, and not just by chance.",
                **values,
            )
        case Change.WITHIN_SCATTER:
            return language.say_html(
                "{before} on {day}, {now} on {newest}. That is about the same: so much changes "
                "from day to day.",
                **values,
            )
        case Change.UNJUDGED:
            return language.say_html(
                "{before} on {day}, {now} on {newest}. How much this number changes by chance is "
                "not known.",
                **values,
            )
