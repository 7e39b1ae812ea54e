"""Home lessons: which lessons a person may practise alone, and why others stay in class.

All rules here are ours. Alone at home nobody watches, so what was never done with a coach, was
too much the last time, or is to be looked at again stays in class.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Action
from builder.planning.overview import PersonOverview
from builder.planning.progress import Progress
from builder.planning.standing import OBSERVE
from builder.records.attendance import Attendance, Outcome
from builder.sums.advance import is_stuck, was_away
from builder.sums.citation import ours

MOST_LESSONS = 5
DONE_IN_CLASS = ours(
    "done-in-class", "only lessons that were done at least once with a coach are practised at home"
)
FIVE_AT_HOME = ours("five-at-home", "at most five lessons at home, of the strands last worked on")
_HANDS_ON = "hands-on"


class WhyInClass(StrEnum):
    """Why a strand has no lesson at home."""

    NEW = "new"
    """Nothing of it was done with a coach yet."""
    LOOK = "look"
    """A coach is to look first: too much, stuck, or long ago."""
    BARRED = "barred"
    NO_ROOM = "no-room"
    """Days or minutes are full."""


@dataclass(frozen=True, slots=True)
class LeftInClass:
    """A strand that is left to the class."""

    strand_id: str
    why: WhyInClass


@dataclass(frozen=True, slots=True)
class HomeChoice:
    """What is practised at home, and what isn't."""

    lessons: tuple[Lesson, ...]
    """In the order of the course."""
    left: tuple[LeftInClass, ...]


def list_asked_first(course: Course, overview: PersonOverview) -> tuple[str, ...]:
    """Return the person's uncleared conditions about which a notice sends them to a clinician."""
    asked = {
        name
        for notice in course.notices
        if notice.action is Action.ASK_FIRST
        for name in notice.conditions
    }
    return tuple(name for name in overview.uncleared if name in asked)


def choose_lessons(
    course: Course, overview: PersonOverview, attendance: tuple[Attendance, ...]
) -> HomeChoice:
    """Return at most one lesson of each strand; takes that person's rows in order of days."""
    found: list[Lesson] = []
    left: list[LeftInClass] = []
    for progress in overview.progress:
        if course.vocabulary.strands[progress.strand_id].aim != OBSERVE:
            lesson = next(_list_fitting(course, overview, progress), None)
            if lesson:
                found.append(lesson)
            else:
                left.append(LeftInClass(progress.strand_id, _find_why(course, overview, progress)))
    newest = {row.lesson_id: row.day for row in attendance}
    kept = sorted(found, key=lambda each: newest.get(each.id, date.min), reverse=True)
    kept = kept[:MOST_LESSONS]
    left += [LeftInClass(each.strand.id, WhyInClass.NO_ROOM) for each in found if each not in kept]
    return HomeChoice(tuple(each for each in found if each in kept), tuple(left))


def _list_fitting(course: Course, overview: PersonOverview, progress: Progress) -> Iterator[Lesson]:
    """Yield what fits of a strand: what comes next, what was done last, then what is known."""
    own = course.lessons_of(progress.strand_id)
    by_level = sorted(own, key=lambda lesson: lesson.level, reverse=True)
    current = overview.standing.current.get(progress.strand_id, "")
    names = (
        progress.lesson_id,
        current,
        *(lesson.id for lesson in by_level if lesson.id in overview.standing.known),
    )
    for name in dict.fromkeys(names):
        lesson = course.by_id.get(name)
        if lesson and lesson in own and _may_do_alone(course, overview, lesson):
            yield lesson


def _may_do_alone(course: Course, overview: PersonOverview, lesson: Lesson) -> bool:
    if lesson.id in overview.barriers or _HANDS_ON in course.traits_by_lesson[lesson.id]:
        return False
    return not _needs_coach(overview, lesson.id)


def _needs_coach(overview: PersonOverview, name: str) -> bool:
    standing = overview.standing
    tries = standing.tries.get(name, ())
    is_away = standing.last_day is not None and was_away(standing.last_day, overview.day)
    return (
        is_away
        or not tries
        or tries[-1] is Outcome.EASIER
        or is_stuck(tries)
        or name in standing.too_much
        or name in standing.once_more
    )


def _find_why(course: Course, overview: PersonOverview, progress: Progress) -> WhyInClass:
    tried = [
        lesson.id
        for lesson in course.lessons_of(progress.strand_id)
        if lesson.id in overview.standing.tries
    ]
    if not tried:
        return WhyInClass.NEW
    return (
        WhyInClass.BARRED if all(name in overview.barriers for name in tried) else WhyInClass.LOOK
    )
