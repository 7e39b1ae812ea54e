"""Time: breaths a minute, the length of a set and of a whole lesson."""

from dataclasses import dataclass

from builder.course.dose import TimedDose
from builder.course.lesson import Drill
from builder.course.tempo import Tempo
from builder.sums.schedule import make_plan

_SECOND_MS = 1000


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
    """Work out how long a drill takes, from its schedule; rest counts between rounds only."""
    plan = make_plan(drill.tempo, drill.dose)
    whole = plan.end_ms / _SECOND_MS
    is_timed = isinstance(drill.dose, TimedDose)  # its minutes hold the getting ready too
    return DrillTime(
        plan.cycle_ms / _SECOND_MS,
        plan.round_ms / _SECOND_MS,
        whole,
        whole if is_timed else set_up_seconds + whole,
        is_estimate=is_timed or drill.tempo is None,
    )
