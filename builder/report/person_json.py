"""One person on one day, for programs; days are ISO dates."""

import json
from datetime import date

from builder.course.course import Course
from builder.planning.overview import PersonOverview
from builder.planning.progress import Progress
from builder.planning.trends import Comparison, Reading, Trend
from builder.planning.weaker_side import SideComparison
from builder.report.look_words import say_look
from builder.report.person_words import CAUTION, list_citations
from builder.report.placement_words import say_barrier
from builder.report.progress_words import list_barred, say_progress
from builder.report.sources import list_sources
from builder.report.trend_words import say_sides, say_trend


def write_person_json(course: Course, overview: PersonOverview) -> str:
    """Write all of one person for programs."""
    person, standing = overview.person, overview.standing
    report = {
        "person": person.id,
        "name": person.name,
        "day": overview.day.isoformat(),
        "conditions": list(person.conditions),
        "uncleared": list(overview.uncleared),
        "last_day": _write_day(standing.last_day),
        "weeks_away": standing.weeks_away,
        "known": sorted(standing.known),
        "open": list(standing.open),
        "set_back": list(standing.set_back),
        "strands": [_write_progress(course, overview, each) for each in overview.progress],
        "barred": {
            name: [say_barrier(course, barrier) for barrier in overview.barriers.get(name, ())]
            for name in list_barred(overview)
        },
        "rests": {name: rest.seconds for name, rest in overview.rests.items()},
        "side_plans": {
            name: {
                "first": plan.first,
                "weaker_sets": plan.weaker_sets,
                "stronger_sets": plan.stronger_sets,
            }
            for name, plan in overview.side_plans.items()
        },
        "sides": [_write_sides(course, each) for each in overview.sides],
        "trends": [_write_trend(course, each) for each in overview.trends],
        "look_at": [
            {"kind": look.kind, "lesson": look.lesson_id, "says": say_look(course, look)}
            for look in overview.looks
        ],
        "retests": [
            {
                "measure": each.measure.id,
                "lesson": each.lesson_id,
                "newest": _write_day(each.newest),
                "due": each.due.isoformat(),
                "is_due": each.is_due,
                "is_overdue": each.is_overdue,
            }
            for each in overview.retests
        ],
        "cautions": [course.settings.caution, CAUTION],
        "sources": list_sources(list_citations(overview)),
    }
    return json.dumps(report, ensure_ascii=False, indent=2)


def _write_progress(
    course: Course, overview: PersonOverview, progress: Progress
) -> dict[str, object]:
    return {
        "strand": progress.strand_id,
        "direction": progress.direction,
        "lesson": progress.lesson_id,
        "alternatives": list(progress.alternatives),
        "reasons": [
            {
                "kind": each.kind,
                "lessons": list(each.lesson_ids),
                "number": each.number,
                "waiting": each.waiting_id,
            }
            for each in progress.reasons
        ],
        "says": say_progress(course, overview, progress),
    }


def _write_sides(course: Course, comparison: SideComparison) -> dict[str, object]:
    return {
        "measure": comparison.measure.id,
        "lesson": comparison.lesson_id,
        "day": comparison.day.isoformat(),
        "left": comparison.left,
        "right": comparison.right,
        "word": comparison.word,
        "index_percent": comparison.index_percent,
        "difference": comparison.difference,
        "weaker": comparison.weaker,
        "says": say_sides(course, comparison),
    }


def _write_trend(course: Course, trend: Trend) -> dict[str, object]:
    return {
        "measure": trend.measure.id,
        "lesson": trend.lesson_id,
        "side": trend.side,
        "readings": [_write_reading(each) for each in trend.readings],
        "best": _write_reading(trend.best),
        "from_first": _write_comparison(trend.from_first),
        "from_previous": _write_comparison(trend.from_previous),
        "asks_for_clinician": trend.asks_for_clinician,
        "says": say_trend(course, trend),
    }


def _write_reading(reading: Reading | None) -> dict[str, object] | None:
    if reading is None:
        return None
    return {
        "day": reading.day.isoformat(),
        "number": reading.number,
        "word": reading.word,
        "trials": reading.trials,
    }


def _write_comparison(comparison: Comparison | None) -> dict[str, object] | None:
    if comparison is None:
        return None
    return {
        "change": comparison.change,
        "earlier_day": comparison.earlier_day.isoformat(),
        "earlier": comparison.earlier,
        "later": comparison.later,
        "trials": comparison.trials,
        "scatter_share": comparison.scatter_share,
        "scatter_cm": comparison.scatter_cm,
    }


def _write_day(day: date | None) -> str | None:
    return day.isoformat() if day else None
