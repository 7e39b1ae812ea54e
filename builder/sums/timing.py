"""Time: breaths a minute, the length of a set and of a whole lesson."""

from dataclasses import dataclass

from builder.course.dose import Dose, TimedDose
from builder.course.lesson import Drill
from builder.course.tempo import Tempo

NATURAL_CYCLE_SECONDS = 4.0
"""A resting adult breathes 12 to 20 times a minute (Royal College of Physicians, NEWS2, 2017);
15 is taken where people breathe at their own pace, so times of such drills are estimates."""


@dataclass(frozen=True, slots=True)
class DrillTime:
    """How long a drill takes, in seconds."""

    cycle_seconds: float
    """One breath."""
    set_seconds: float
    """One set, one side."""
    drill_seconds: float
    """All sets and sides with the rests between them."""
    lesson_seconds: float
    """The drill and getting into position."""
    is_estimate: bool
    """True where people breathe at their own pace."""


def rate_per_minute(tempo: Tempo) -> float:
    """Return breaths a minute: 60 / cycle."""
    return 60 / tempo.cycle_seconds


def time_drill(drill: Drill, set_up_seconds: float) -> DrillTime:
    """Work out how long a drill takes; rest counts between sets and sides only."""
    dose = drill.dose
    cycle = NATURAL_CYCLE_SECONDS if drill.tempo is None else drill.tempo.cycle_seconds
    if isinstance(dose, TimedDose):
        seconds = dose.minutes * 60.0
        return DrillTime(cycle, seconds, seconds, seconds, is_estimate=True)
    one_set = dose.breaths * cycle
    whole = time_dose(dose, cycle)
    return DrillTime(cycle, one_set, whole, set_up_seconds + whole, drill.tempo is None)


def time_dose(dose: Dose, cycle_seconds: float) -> float:
    """Return the seconds of all sets and sides with the rests between them."""
    return dose.rounds * dose.breaths * cycle_seconds + (dose.rounds - 1) * dose.rest_seconds
