"""A person's own body in the sums: how big the breaths of a lesson are for it."""

from datetime import date

from builder.course.dose import TimedDose
from builder.course.lesson import Lesson
from builder.course.reference_body import ReferenceBody
from builder.errors import InvalidValueError
from builder.records.person import Person
from builder.sums.air import SHORT_SET_SECONDS, AirShare, find_air_share
from builder.sums.validity import OutsideValidityError


def find_own_share(person: Person, lesson: Lesson, day: date) -> AirShare | None:
    """Set a lesson's count against the person's own body.

    None where people breathe at their own pace, where not all of the body is known, and where the
    sums aren't made for it.
    """
    tempo = lesson.drill.tempo
    body = find_own_body(person, day)
    if tempo is None or body is None:
        return None
    try:
        return find_air_share(tempo.cycle_seconds, lesson.drill.effort.met, body)
    except OutsideValidityError:
        return None


def find_own_body(person: Person, day: date) -> ReferenceBody | None:
    """Return the body at the age that the person reaches in the year of a day.

    With only the year of birth known it is the higher age that counts, whose capacity is less.
    """
    if person.lung_reference is None:
        return None
    if person.birth_year is None or person.height_cm is None or person.weight_kg is None:
        return None
    age_years = day.year - person.birth_year
    try:
        return ReferenceBody(
            person.id, person.lung_reference, age_years, person.height_cm, person.weight_kg
        )
    except InvalidValueError:
        return None


def has_long_sets(lesson: Lesson) -> bool:
    """Tell whether a set lasts so long that its breaths come near a steady state."""
    drill = lesson.drill
    if isinstance(drill.dose, TimedDose):
        return drill.dose.minutes * 60 >= SHORT_SET_SECONDS
    cycle_seconds = 0 if drill.tempo is None else drill.tempo.cycle_seconds
    return drill.dose.breaths * cycle_seconds >= SHORT_SET_SECONDS
