"""What the demo's clients may do, by the course's notices and the sum of air."""

from collections.abc import Mapping
from datetime import date

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Action
from builder.course.reference_body import LungReference, ReferenceBody
from builder.sums.air import TOO_BIG_SHARE, find_air_share

YEAR = 2026


def is_permitted(course: Course, person: Mapping[str, str], lesson: Lesson, day: date) -> bool:
    """Tell whether no notice that stops a person, or waits for a clinician, is in the way."""
    conditions = set(filter(None, person["conditions"].split(";")))
    cleared = dict(entry.split() for entry in filter(None, person["cleared"].split(";")))
    for notice in course.notices_for(lesson):
        met = conditions & set(notice.conditions)
        if met and notice.action is Action.STOP:
            return False
        if notice.action is Action.ASK_FIRST and any(
            cleared.get(name, "9999") >= day.isoformat() for name in met
        ):
            return False
    return True


def has_air(person: Mapping[str, str], lesson: Lesson) -> bool:
    """Tell whether the count of a lesson leaves air for this body."""
    body = ReferenceBody(
        person["id"],
        LungReference(person["sex for lung reference"]),
        YEAR - int(person["birth year"]),
        float(person["height cm"]),
        float(person["weight kg"]),
    )
    tempo = lesson.drill.tempo
    if tempo is None:
        return True
    share = find_air_share(tempo.cycle_seconds, lesson.drill.effort.met, body).share
    return share < TOO_BIG_SHARE
