"""Home ladder: a person's own next rungs of a lesson that is a tempo ladder."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.tempo import PAUSE_SECONDS, Tempo
from builder.planning.own_body import find_own_body
from builder.planning.readings import find_comfortable_hold
from builder.records.person import Person
from builder.records.result import Result
from builder.sums.citation import ours
from builder.sums.ladder import Ladder, climb_to
from builder.sums.validity import OutsideValidityError

CYCLE_MEASURE = "longest-cycle-seconds"
"""The measure of the longest easy breath; courses with a ladder have it under this id."""
MOST_RUNGS = 4
NEXT_RUNGS = ours("next-rungs", "a sheet has the next four rungs of a ladder at most")


@dataclass(frozen=True, slots=True)
class HomeLadder:
    """Rungs to climb at home, the first within the longest easy breath on record."""

    lesson_id: str
    easy_seconds: float
    day: date
    """When that breath was read."""
    ladder: Ladder

    @property
    def rungs(self) -> tuple[Tempo, ...]:
        """Return the next rungs, the first one first."""
        return self.ladder.rungs[:MOST_RUNGS]


def climb_home(
    course: Course, person: Person, lesson: Lesson, results: Sequence[Result], day: date
) -> HomeLadder | None:
    """Return the person's rungs; None without a ladder or a reading, or outside of the sums.

    Takes that person's results in order of their days. Without an own body on record the rungs
    must suit all of the course's reference bodies.
    """
    newest = _find_newest(results)
    tempo = lesson.drill.tempo
    if not lesson.ladder or tempo is None or newest is None:
        return None
    body = find_own_body(person, day)
    hold = find_comfortable_hold(results)
    easy_seconds = float(newest.value)
    try:
        ladder = climb_to(
            stretch_tempo(tempo, lesson.ladder[-1]),
            easy_seconds,
            effort_met=lesson.drill.effort.met,
            bodies=(body,) if body else course.reference_bodies,
            comfortable_hold_seconds=hold.seconds if hold else None,
        )
    except OutsideValidityError:
        return None
    return HomeLadder(lesson.id, easy_seconds, newest.day, ladder)


def stretch_tempo(tempo: Tempo, cycle_seconds: float) -> Tempo:
    """Return a tempo of the same shape with a longer cycle; pauses stay, the out-breath leads."""
    still = sum(hold for hold in (tempo.hold_in, tempo.hold_out) if hold <= PAUSE_SECONDS)
    moving = tempo.cycle_seconds - still
    scale = (cycle_seconds - still) / moving
    parts = [
        part if index in (1, 3) and part <= PAUSE_SECONDS else _cut_to_half(part * scale)
        for index, part in enumerate(tempo.phases)
    ]
    parts[2] += cycle_seconds - sum(parts)
    return Tempo(*parts)


def _cut_to_half(seconds: float) -> float:
    return int(seconds * 2 + 1e-9) / 2


def _find_newest(results: Sequence[Result]) -> Result | None:
    rows = [
        row for row in results if row.measure_id == CYCLE_MEASURE and not isinstance(row.value, str)
    ]
    return rows[-1] if rows else None
