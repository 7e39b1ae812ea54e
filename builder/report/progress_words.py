"""How a person goes on in each strand, in plain words."""

from collections.abc import Iterable

from builder.course.course import Course
from builder.planning.overview import PersonOverview
from builder.planning.progress import Direction, Progress, Reason, ReasonKind
from builder.report.placement_words import say_barrier

_DIRECTIONS = {
    Direction.START: "start with",
    Direction.FORWARD: "on to",
    Direction.STAY: "stay with",
    Direction.BACK: "back to",
    Direction.WAIT: "wait",
    Direction.DONE: "done",
}


def say_progress(course: Course, overview: PersonOverview, progress: Progress) -> str:
    """Say direction, next lesson and reasons of one strand in one line."""
    strand = course.vocabulary.strands[progress.strand_id].title
    way = _DIRECTIONS[progress.direction]
    lesson = f" {name_lesson(course, progress.lesson_id)}" if progress.lesson_id else ""
    other = _name_lessons(course, progress.alternatives)
    instead = f" (or {other})" if other else ""
    reasons = "; ".join(say_reason(course, overview, reason) for reason in progress.reasons)
    return f"{strand}: {way}{lesson}{instead}: {reasons}"


def say_reason(course: Course, overview: PersonOverview, reason: Reason) -> str:
    """Say one reason."""
    if reason.kind is ReasonKind.BARRED:
        return _say_barred(course, overview, reason)
    if reason.kind is ReasonKind.NOT_YET:
        return _say_not_yet(reason)
    named = _name_lessons(course, reason.lesson_ids)
    return {
        ReasonKind.PLACED: "it is where the placement table starts",
        ReasonKind.FIRST: "it is the first one open",
        ReasonKind.KNOWN: f"{named} is known",
        ReasonKind.LEFT_OUT: "it was left out so far",
        ReasonKind.STUCK: f"it was again {reason.number} times in a row, so look at it together",
        ReasonKind.TOO_MUCH: f"{named} was too much twice in a row",
        ReasonKind.AWAY: "once more, after six weeks away",
        ReasonKind.LOST_BEFORE: "once more, because what it builds on was too much",
        ReasonKind.NEEDS: f"{name_lesson(course, reason.waiting_id)} comes after {named}",
        ReasonKind.ALL_KNOWN: "all its lessons are known",
    }[reason.kind]


def name_lesson(course: Course, lesson_id: str) -> str:
    """Return a lesson's title in quotes, or its id where the course can't read it."""
    return f'"{course.name_lesson(lesson_id)}"'


def list_barred(overview: PersonOverview) -> tuple[str, ...]:
    """Return the lessons that come next but are barred, each once."""
    reasons = [reason for each in overview.progress for reason in each.reasons]
    barred = (reason.lesson_ids for reason in reasons if reason.kind is ReasonKind.BARRED)
    return tuple(dict.fromkeys(name for names in barred for name in names))


def _say_barred(course: Course, overview: PersonOverview, reason: Reason) -> str:
    """Say which lessons are barred, and why; the whys of several that are alike once."""
    named = _name_lessons(course, reason.lesson_ids)
    barriers = [each for name in reason.lesson_ids for each in overview.barriers.get(name, ())]
    whys = dict.fromkeys(say_barrier(course, barrier) for barrier in barriers)
    return f"{named} barred: {'; '.join(whys)}"


def _say_not_yet(reason: Reason) -> str:
    if reason.number:
        return "it was ready once, and once more leads on"
    return "it isn't ready yet"


def _name_lessons(course: Course, names: Iterable[str]) -> str:
    quoted = [name_lesson(course, name) for name in names]
    return " and ".join(part for part in (", ".join(quoted[:-1]), *quoted[-1:]) if part)
