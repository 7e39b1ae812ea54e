"""Counts: the tempos next to one that is too slow, shortened a little at a time."""

from collections.abc import Iterator

from builder.course.tempo import PAUSE_SECONDS, Tempo

_HALF = 0.5
_LEAST_BREATHING_SECONDS = 2.0
_BREATHING = (0, 2)
_ORDER_OF_GIVING = (1, 3, 0, 2)
"""Among equally long phases a hold gives way first, the exhale last."""


def find_shorter_tempos(tempo: Tempo, under_seconds: float, least_seconds: float) -> list[Tempo]:
    """Return the tempos next to one whose cycle stays under a length, nearest first.

    Phases of equal length stay equal, so a box stays a box; pauses stay as they are. No cycle is
    shorter than ``least_seconds``; empty where none is between. Ours.
    """
    return [
        shorter
        for shorter in _shorten(tempo)
        if least_seconds <= shorter.cycle_seconds < under_seconds
    ]


def _shorten(tempo: Tempo) -> Iterator[Tempo]:
    """Yield ever shorter tempos: whole seconds stay whole."""
    step = 1.0 if all(phase == int(phase) for phase in tempo.phases) else _HALF
    groups = _group(tempo)
    phases = list(tempo.phases)
    while True:
        giving = [group for group in groups if phases[group[0]] - step >= _least(group)]
        if not giving:
            return
        longest = max(giving, key=lambda group: phases[group[0]])
        for index in longest:
            phases[index] -= step
        yield Tempo(*phases)


def _group(tempo: Tempo) -> list[tuple[int, ...]]:
    """Return the places of phases that are no pause, those of equal length together."""
    lengths = {phase for phase in tempo.phases if phase > PAUSE_SECONDS}
    groups = [
        tuple(index for index in _ORDER_OF_GIVING if tempo.phases[index] == length)
        for length in lengths
    ]
    return sorted(groups, key=lambda group: max(map(_ORDER_OF_GIVING.index, group)))


def _least(group: tuple[int, ...]) -> float:
    """Return how short phases may get: a hold a pause, in and out what can still be counted."""
    return _LEAST_BREATHING_SECONDS if set(group) & set(_BREATHING) else PAUSE_SECONDS
