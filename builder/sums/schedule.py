"""Schedule: when each set, phase and rest of a drill begins, in whole milliseconds.

The one source of times: cards, pacer, practice tracks and class screen all ask it. Its twin for
the browser is `site_templates/assets/schedule.js`; a test holds both to the same answers.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.tempo import Step, Tempo

NATURAL_CYCLE_MS = 4000
"""A resting adult breathes 12 to 20 times a minute (Royal College of Physicians, NEWS2, 2017);
15 is taken where people breathe at their own pace, so times of such drills are estimates."""
_SECOND_MS = 1000
_MINUTE_MS = 60_000


class Kind(StrEnum):
    """What begins."""

    SET = "set"
    PHASE = "phase"
    REST = "rest"
    END = "end"


@dataclass(frozen=True, slots=True)
class Event:
    """Something that begins at a time."""

    at_ms: int
    """From the start of the first set."""
    kind: Kind
    lasts_ms: int
    round: int
    """From 1: a set of one side; of the next round where a rest leads to it."""
    side: int
    """0 where sides are together, 1 on the first side, 2 on the second."""
    breath: int
    """From 1 inside a round; 0 where no breath is counted."""
    step: str
    """A `Step` in a phase, else empty."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A drill as lengths in milliseconds; rounds are sets, both sides counted."""

    phases: tuple[tuple[Step, int], ...]
    """Empty where people breathe at their own pace."""
    round_ms: int
    rest_ms: int
    rounds: int
    breaths: int
    """In a round; 0 where none are counted."""
    sides: Sides

    @property
    def cycle_ms(self) -> int:
        """Return the length of one breath; an estimate at one's own pace."""
        return sum(length for _, length in self.phases) or NATURAL_CYCLE_MS

    @property
    def end_ms(self) -> int:
        """Return when the last round ends; rest counts between rounds only."""
        return self.rounds * self.round_ms + (self.rounds - 1) * self.rest_ms

    def side_of(self, round_number: int, breath: int) -> int:
        """Return the side of a round, or of a breath where sides take turns."""
        if self.sides is Sides.EACH:
            return 1 if round_number <= self.rounds // 2 else 2
        if self.sides is Sides.ALTERNATE and breath:
            return 2 - breath % 2
        return 0


def make_plan(tempo: Tempo | None, dose: Dose | TimedDose) -> Plan:
    """Turn a tempo and a dose into lengths."""
    if isinstance(dose, TimedDose):
        return Plan((), dose.minutes * _MINUTE_MS, 0, 1, 0, Sides.TOGETHER)
    steps = () if tempo is None else tempo.steps
    phases = tuple((step, round(seconds * _SECOND_MS)) for step, seconds in steps)
    cycle = sum(length for _, length in phases) or NATURAL_CYCLE_MS
    rest = dose.rest_seconds * _SECOND_MS
    return Plan(phases, dose.breaths * cycle, rest, dose.rounds, dose.breaths, dose.sides)


def schedule(
    tempo: Tempo | None, dose: Dose | TimedDose, start_ms: int, stop_ms: int
) -> tuple[Event, ...]:
    """Return what begins from a time on and before another, in order, in milliseconds.

    At one's own pace and in timed doses no phases begin, only sets, rests and the end.
    """
    plan = make_plan(tempo, dose)
    return tuple(event for event in _list_events(plan, start_ms, stop_ms))


def _list_events(plan: Plan, start_ms: int, stop_ms: int) -> Iterator[Event]:
    turn = plan.round_ms + plan.rest_ms
    first = max(0, start_ms // turn)
    for index in range(first, plan.rounds):
        if index * turn >= stop_ms:
            return
        for event in _list_round(plan, index):
            if start_ms <= event.at_ms < stop_ms:
                yield event
    if start_ms <= plan.end_ms < stop_ms:
        yield Event(plan.end_ms, Kind.END, 0, plan.rounds, 0, 0, "")


def _list_round(plan: Plan, index: int) -> Iterator[Event]:
    number = index + 1
    at = index * (plan.round_ms + plan.rest_ms)
    yield Event(at, Kind.SET, plan.round_ms, number, plan.side_of(number, 0), 0, "")
    if plan.phases:
        for breath in range(1, plan.breaths + 1):
            side = plan.side_of(number, breath)
            for step, length in plan.phases:
                yield Event(at, Kind.PHASE, length, number, side, breath, step)
                at += length
    else:
        at += plan.round_ms
    if plan.rest_ms and number < plan.rounds:
        side = plan.side_of(number + 1, 0)
        yield Event(at, Kind.REST, plan.rest_ms, number + 1, side, 0, "")
