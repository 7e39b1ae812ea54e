"""What to look at next with one person, in plain words."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from builder.course.course import Course
from builder.course.notice import Action
from builder.planning.look_at import Look, LookKind
from builder.report.placement_words import say_adaptation
from builder.report.progress_words import name_lesson
from builder.report.trend_words import name_series, say_retest


def say_look(course: Course, look: Look) -> str:
    """Say one thing to look at."""
    return _SAYINGS[look.kind](course, look)


def say_unanswered(course: Course, condition: str) -> str:
    """Say that no clinician's answer is on record, and what holds until one is."""
    asked = (notice for notice in course.notices if notice.action is Action.ASK_FIRST)
    comes_first = any(condition in notice.conditions for notice in asked)
    holds = "a licensed clinician comes first" if comes_first else "what the notices say holds"
    return f"{course.name_condition(condition)}: no clinician's answer on record; {holds}"


def _say_condition(course: Course, look: Look) -> str:
    return say_unanswered(course, look.condition)


def _say_clinician(course: Course, look: Look) -> str:
    title = course.vocabulary.measures[look.measure_id].title
    return f"{title}: low on two dates, which is no finding but a reason to see a clinician"


def _say_stuck(course: Course, look: Look) -> str:
    lesson = name_lesson(course, look.lesson_id)
    return f"{lesson}: again three times in a row; look at it together"


def _say_side(course: Course, look: Look) -> str:
    measure = course.vocabulary.measures[look.measure_id]
    named = name_series(course, measure, look.lesson_id, None)
    return f"the {look.side} side, by {named}: it starts"


def _say_adaptation(course: Course, look: Look) -> str:
    said = say_adaptation(course, look.adaptation) if look.adaptation else ""
    return f"{name_lesson(course, look.lesson_id)}: {said}"


def _say_watch_for(course: Course, look: Look) -> str:
    return f"{name_lesson(course, look.lesson_id)}: {look.text}"


def _say_retest(course: Course, look: Look) -> str:
    return f"to be measured, {say_retest(course, look.retest)}" if look.retest else ""


_SAYINGS: Mapping[LookKind, Callable[[Course, Look], str]] = MappingProxyType(
    {
        LookKind.CONDITION: _say_condition,
        LookKind.CLINICIAN: _say_clinician,
        LookKind.STUCK: _say_stuck,
        LookKind.WEAKER_SIDE: _say_side,
        LookKind.ADAPTATION: _say_adaptation,
        LookKind.WATCH_FOR: _say_watch_for,
        LookKind.RETEST: _say_retest,
    }
)
