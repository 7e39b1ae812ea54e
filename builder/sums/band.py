"""Band: the counts among which somebody may go slower or faster in one lesson."""

from collections.abc import Sequence

from builder.course.tempo import Tempo
from builder.sums.counts import find_shorter_tempos

_MOST_FASTER = 2
_EXHALE, _INHALE = 2, 0


def find_band(
    tempo: Tempo, ladder_seconds: Sequence[float], shortest_cycle_seconds: float
) -> tuple[Tempo, ...]:
    """Return the counts of a lesson from the fastest to the slowest, its own among them.

    Up to two are faster, none shorter than a cycle in seconds. None is slower than the lesson's
    own, which is what was checked, but for the rungs of its ladder. Ours.
    """
    faster = find_shorter_tempos(tempo, tempo.cycle_seconds, shortest_cycle_seconds)[:_MOST_FASTER]
    rungs = [seconds for seconds in ladder_seconds if seconds > tempo.cycle_seconds]
    return (*reversed(faster), tempo, *(_lengthen(tempo, seconds) for seconds in rungs))


def _lengthen(tempo: Tempo, cycle_seconds: float) -> Tempo:
    """Add half seconds up to a cycle, a second at a time to the exhale and inhale in turn."""
    phases = list(tempo.phases)
    left = cycle_seconds - tempo.cycle_seconds
    place = _EXHALE
    while left > 0:
        step = min(1.0, left)
        phases[place] += step
        left -= step
        place = _INHALE if place == _EXHALE else _EXHALE
    return Tempo(*phases)
