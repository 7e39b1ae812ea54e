"""Trends, weaker sides and retests in plain words; none says what anybody has or lacks."""

from collections.abc import Iterable, Iterator

from builder.course.course import Course
from builder.course.vocabulary import Measure
from builder.planning.measured_days import has_many_readers
from builder.planning.retest import Retest
from builder.planning.trends import Change, Comparison, Reading, Trend
from builder.planning.weaker_side import SideComparison
from builder.records.result import Side
from builder.report.days import say_day
from builder.sums import gap, symmetry

_SECONDS = "s"


def name_series(course: Course, measure: Measure, lesson_id: str, side: Side | None) -> str:
    """Name a measure, with its lesson where several record it, and its side."""
    lesson = course.by_id.get(lesson_id)
    is_one_of_many = lesson is not None and has_many_readers(course, measure.id)
    where = f' in "{lesson.title}"' if lesson and is_one_of_many else ""
    return f"{measure.title}{where}{f', {side}' if side else ''}"


def say_trends(course: Course, trends: Iterable[Trend]) -> Iterator[str]:
    """Say every trend; lessons in which a measure was read on one day only share a line."""
    single: dict[str, list[Trend]] = {}
    for trend in trends:
        if len(trend.readings) == 1 and has_many_readers(course, trend.measure.id):
            single.setdefault(trend.measure.title, []).append(trend)
        else:
            yield say_trend(course, trend)
    for title, found in single.items():
        yield f"{title}, on one day each: {'; '.join(_say_short(course, each) for each in found)}"


def say_trend(course: Course, trend: Trend) -> str:
    """Say the newest reading, the change from the first, from the one before, and the best."""
    named = name_series(course, trend.measure, trend.lesson_id, trend.side)
    if trend.from_first is None:
        return f"{named}: {_say_plain(trend)}"
    parts = [_say_from_first(trend, trend.from_first)]
    previous = trend.from_previous
    is_other = previous and previous.earlier_day != trend.from_first.earlier_day
    if previous and is_other and previous.change is not Change.UNJUDGED:
        parts.append(_say_from_previous(trend.measure, previous))
    if trend.best and trend.best.number != trend.newest.number:
        best = _say_reading(trend.measure, trend.best)
        parts.append(f"best so far {best} on {say_day(trend.best.day)}")
    return f"{named}: {'; '.join(parts)}"


def say_change(measure: Measure, comparison: Comparison) -> str:
    """Say which way a number went, and name the scatter that it is held against."""
    if comparison.change is Change.UNJUDGED:
        return "no rule says what would be a change"
    scatter = _name_scatter(comparison)
    if comparison.change is Change.WITHIN_SCATTER:
        return f"within {scatter}"
    way = _name_way(measure, grew=comparison.change is Change.GREW)
    if _is_ours(comparison):  # a gap changes beyond its scatter; published ones count from it on
        return f"{way}, more than {scatter}"
    return f"{way}, by at least {scatter}"


def say_sides(course: Course, comparison: SideComparison) -> str:
    """Say how both sides compare, with the formula, and what follows."""
    measure = comparison.measure
    named = name_series(course, measure, comparison.lesson_id, None)
    follows = (
        f"the {comparison.weaker} side starts and gets one set more (ours)"
        if comparison.weaker
        else "neither side is the weaker one"
    )
    return f"{named} on {say_day(comparison.day)}: {_say_both(comparison)}; {follows}"


def say_retest(course: Course, retest: Retest) -> str:
    """Say when and where a measure is read again, or for the first time."""
    named = name_series(course, retest.measure, retest.lesson_id, None)
    if retest.newest is None:
        return f"{named}: not read yet"
    newest = f"last read on {say_day(retest.newest)}"
    if retest.is_overdue:
        return f"{named}: was due on {say_day(retest.due)}, {newest}"
    when = "due today" if retest.is_due else f"due on {say_day(retest.due)}"
    return f"{named}: {when}, {newest}"


def _say_short(course: Course, trend: Trend) -> str:
    lesson = course.by_id.get(trend.lesson_id)
    where = f' in "{lesson.title}"' if lesson else ""
    side = f", {trend.side}" if trend.side else ""
    reading = _say_reading(trend.measure, trend.newest)
    return f"{reading}{where}{side} on {say_day(trend.newest.day)}"


def _say_plain(trend: Trend) -> str:
    """Say readings that aren't compared: a single one, or words."""
    newest = f"{_say_reading(trend.measure, trend.newest)} on {say_day(trend.newest.day)}"
    if len(trend.readings) == 1:
        return f"{newest}, one day so far"
    first = trend.baseline
    if first.word == trend.newest.word:
        return f"{newest}, as on {say_day(first.day)}"
    return f"{newest}, was {first.word} on {say_day(first.day)}"


def _say_from_first(trend: Trend, comparison: Comparison) -> str:
    measure = trend.measure
    later = _say_number(measure, comparison.later)
    earlier = _say_number(measure, comparison.earlier)
    changed = say_change(measure, comparison)
    said = f"{later}, was {earlier} on {say_day(comparison.earlier_day)}: {changed}"
    if comparison.later == trend.newest.number and comparison.earlier == trend.baseline.number:
        return said
    first = "trial" if comparison.trials == 1 else f"{comparison.trials} trials"
    best = _say_reading(measure, trend.newest)
    return f"{said} (the first {first} of each day compared; best of the newest day {best})"


def _say_from_previous(measure: Measure, comparison: Comparison) -> str:
    number = _say_number(measure, comparison.earlier)
    changed = say_change(measure, comparison)
    return f"since {say_day(comparison.earlier_day)} ({number}) {changed}"


def _say_reading(measure: Measure, reading: Reading) -> str:
    return reading.word if reading.number is None else _say_number(measure, reading.number)


def _say_number(measure: Measure, number: float) -> str:
    return f"{number:g} {measure.unit}"


def _name_way(measure: Measure, *, grew: bool) -> str:
    if measure.unit == _SECONDS:
        return "longer" if grew else "shorter"
    return "larger" if grew else "smaller"


def _name_scatter(comparison: Comparison) -> str:
    if comparison.scatter_share is not None:
        return f"its usual scatter of {_name_share(comparison.scatter_share)}"
    whose = " (ours)" if _is_ours(comparison) else ""
    return f"its usual scatter of {comparison.scatter_cm:g} cm{whose}"


def _is_ours(comparison: Comparison) -> bool:
    return all(citation.is_ours for citation in comparison.citations)


def _name_share(share: float) -> str:
    return "a fifth" if share == 1 / 5 else f"{share:.0%}"


def _say_both(comparison: SideComparison) -> str:
    if comparison.left is None or comparison.right is None:
        other = f", so the {comparison.weaker} comes second" if comparison.weaker else ""
        return f"{comparison.word}{other}"
    unit = comparison.measure.unit
    both = f"left {comparison.left:g} {unit}, right {comparison.right:g} {unit}"
    if comparison.index_percent is not None:
        return (
            f"{both}, index {comparison.index_percent:.0f} "
            f"({symmetry.FORMULA}; even from {symmetry.EVEN_PERCENT:g})"
        )
    return (
        f"{both}, {comparison.difference:g} {unit} apart "
        f"(larger - smaller; alike up to {gap.SCATTER_CM:g} {unit}, ours)"
    )
