"""Own drill: in which position one person does a lesson, and with which props."""

from collections.abc import Iterable

from builder.course.lesson import Drill, Lesson
from builder.course.notice import Instead
from builder.planning.moving import move_drill
from builder.planning.permission import Adaptation


def find_instead(adaptations: Iterable[Adaptation]) -> Instead | None:
    """Return where a person does a lesson instead, by what changes for them; None as it is."""
    return next((each.instead for each in adaptations if each.instead), None)


def find_own_drill(lesson: Lesson, adaptations: Iterable[Adaptation]) -> Drill:
    """Return a lesson's drill in the position and with the props that a person does it in.

    Count, dose and effort stay. All that is laid out, drawn or said of a person's version goes by
    this one; the family of a class block goes by the lesson's own.
    """
    instead = find_instead(adaptations)
    return move_drill(lesson.drill, instead) if instead else lesson.drill
