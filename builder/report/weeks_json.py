"""Several weeks for programs; days are ISO dates."""

import json

from builder.planning.weeks.explain import Shortfall
from builder.report.weeks_words import (
    CITATIONS,
    EXPECTATION,
    WeeksView,
    list_help,
    say_proof,
    say_shortfall,
)


def write_weeks_json(view: WeeksView) -> str:
    """Write several weeks for programs."""
    planned = view.planned
    schedule, problem = planned.found.schedule, planned.problem
    report = {
        "title": planned.order.title,
        "aim": list(planned.order.aim),
        "days": [_write_day(view, number) for number in range(len(problem.days))],
        "reached": {
            person: problem.days[number].day.isoformat() if number >= 0 else "already"
            for person, number in schedule.reached.items()
        },
        "not_reached": [_write_shortfall(view, each) for each in planned.shortfalls],
        "is_proven": planned.found.is_proven,
        "proof": say_proof(planned.found),
        "expectation": EXPECTATION,
        "sources": [str(citation) for citation in CITATIONS],
        "caution": view.course.settings.caution.strip(),
    }
    return json.dumps(report, ensure_ascii=False, indent=2)


def _write_day(view: WeeksView, number: int) -> dict[str, object]:
    schedule, day = view.planned.found.schedule, view.planned.problem.days[number]
    return {
        "day": day.day.isoformat(),
        "week": day.week,
        "is_retest": day.is_retest,
        "strands": list(schedule.strands[number]),
        "lessons": {
            person: [turn.lesson_id for turn in turns if turn.day == number]
            for person, turns in schedule.turns.items()
        },
    }


def _write_shortfall(view: WeeksView, shortfall: Shortfall) -> dict[str, object]:
    return {
        "person": shortfall.person_id,
        "cause": shortfall.cause.value,
        "why": say_shortfall(view, shortfall),
        "hindered": [each.lesson_id for each in shortfall.hindered],
        "behind": list(shortfall.behind),
        "missing": dict(shortfall.missing),
        "more_weeks": shortfall.more_weeks,
        "is_fewest": shortfall.is_fewest,
        "more_places": shortfall.more_places,
        "help": list(list_help(shortfall, view.planned.order.minutes)),
    }
