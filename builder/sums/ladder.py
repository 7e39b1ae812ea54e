"""Ladder: from a person's comfortable cycle to a target tempo by small rungs."""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.course.reference_body import ReferenceBody
from builder.course.tempo import PAUSE_SECONDS, Tempo
from builder.sums.air import AIR_LIMITS, find_air_share, find_longest_cycle_seconds
from builder.sums.breath_hold import HALF_AT_HOME, find_most_at_home_seconds
from builder.sums.citation import Citation, ours
from builder.sums.counts import find_shorter_tempos
from builder.sums.validity import OutsideValidityError, Validity

MOST_GROWTH = 0.10
"""The most that a rung is longer than the one before."""
READY_IN_A_ROW = 2
RATAMESS = Citation(
    "ratamess-2009",
    "Ratamess and others",
    2009,
    "loads grow by 2 to 10 % at a time",
    "Medicine & Science in Sports & Exercise 41:687",
)
RUNGS = ours("breath-rungs", "breaths grow by at most 10 % at a time too")
NO_HOLD = ours("no-hold", "without a measured hold a home tempo has pauses of a second only")
TWICE_READY = ours("twice-ready", "the next rung comes when the last was ready twice in a row")
_HALF = 0.5
_SHORTEST_CYCLE_SECONDS = 4.0
_START = Validity("easy breath", "s", 5, 60)
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Ladder:
    """Rungs for one person, the first within today's comfortable cycle."""

    rungs: tuple[Tempo, ...]
    target: Tempo
    """The tempo that was asked for."""
    held_back_by: tuple[Citation, ...]
    """The rules of ours that keep the last rung under the target; empty where it is reached."""
    effort_met: float
    bodies: tuple[ReferenceBody, ...]
    """The bodies for which the last rung's breath stays small."""

    @property
    def citations(self) -> tuple[Citation, ...]:
        """Return what the rungs and their end rest on, and what of it is ours."""
        share = find_air_share(self.rungs[-1].cycle_seconds, self.effort_met, self.bodies[0])
        own = (RATAMESS, RUNGS, TWICE_READY, HALF_AT_HOME, *self.held_back_by)
        return tuple(dict.fromkeys((*own, *share.citations)))

    @property
    def reaches_target(self) -> bool:
        """Tell whether the last rung is the tempo that was asked for."""
        return self.rungs[-1] == self.target


def climb_to(
    target: Tempo,
    comfortable_cycle_seconds: float,
    *,
    effort_met: float,
    bodies: Sequence[ReferenceBody],
    comfortable_hold_seconds: float | None = None,
) -> Ladder:
    """Return the rungs from an easy breath of 5 to 60 s to a target tempo, for at least one body.

    Holds stay at or under half of the comfortable hold, pauses of a second where none was measured.
    The needed breath stays under half of each body's predicted capacity. Raises
    `OutsideValidityError` for a cycle, hold or effort outside its range.
    """
    start = _START.check(comfortable_cycle_seconds)
    hold = _most_hold(comfortable_hold_seconds)
    top = _cap_holds(target, hold)
    rule = NO_HOLD if comfortable_hold_seconds is None else HALF_AT_HOME
    reasons = [] if top == target else [rule]
    longest = min(find_longest_cycle_seconds(effort_met, body) for body in bodies)
    if top.cycle_seconds >= longest:
        reasons.append(AIR_LIMITS)
        top = _shorten(top, target, longest)
    rungs = tuple(_climb(_shrink(top, start), top))
    return Ladder(rungs, target, tuple(reasons), effort_met, tuple(bodies))


def _shorten(tempo: Tempo, target: Tempo, longest_seconds: float) -> Tempo:
    shorter = find_shorter_tempos(tempo, longest_seconds, least_seconds=_SHORTEST_CYCLE_SECONDS)
    if not shorter:
        raise OutsideValidityError(
            f"no count like {target} keeps the breath small at this effort: only one under "
            f"{longest_seconds:.1f} s would, and {_SHORTEST_CYCLE_SECONDS:g} s are the least"
        )
    return shorter[0]


def _most_hold(comfortable_hold_seconds: float | None) -> float:
    if comfortable_hold_seconds is None:
        return PAUSE_SECONDS
    most = find_most_at_home_seconds(comfortable_hold_seconds)
    return int(most / _HALF + _ROUNDING) * _HALF


def _cap_holds(tempo: Tempo, most: float) -> Tempo:
    return Tempo(tempo.inhale, min(tempo.hold_in, most), tempo.exhale, min(tempo.hold_out, most))


def _shrink(tempo: Tempo, cycle_seconds: float) -> Tempo:
    """Return a tempo of the same shape within a cycle, in half seconds; pauses stay as they are."""
    if tempo.cycle_seconds <= cycle_seconds:
        return tempo
    pauses = sum(phase for phase in tempo.phases if phase <= PAUSE_SECONDS)
    scale = (cycle_seconds - pauses) / (tempo.cycle_seconds - pauses)
    phases = [
        phase
        if phase <= PAUSE_SECONDS
        else max(PAUSE_SECONDS, int(phase * scale / _HALF + _ROUNDING) * _HALF)
        for phase in tempo.phases
    ]
    while sum(phases) > cycle_seconds + _ROUNDING:  # phases that were kept from vanishing
        phases[phases.index(max(phases))] -= _HALF
    return _grow(Tempo(*phases), tempo, cycle_seconds)


def _climb(start: Tempo, top: Tempo) -> list[Tempo]:
    rungs = [start]
    while rungs[-1] != top:
        rung = _grow(rungs[-1], top, rungs[-1].cycle_seconds * (1 + MOST_GROWTH))
        if rung == rungs[-1]:
            return rungs
        rungs.append(rung)
    return rungs


def _grow(tempo: Tempo, top: Tempo, cycle_seconds: float) -> Tempo:
    """Add half seconds where most is missing, the exhale first, as long as the cycle allows."""
    phases = list(tempo.phases)
    order = (2, 0, 1, 3)
    while sum(phases) + _HALF <= cycle_seconds + _ROUNDING:
        missing = [index for index in order if phases[index] < top.phases[index]]
        if not missing:
            break
        furthest = min(missing, key=lambda index: phases[index] / top.phases[index])
        phases[furthest] += _HALF
    return Tempo(*phases)
