"""Where a function of one number is nought."""

from collections.abc import Callable
from itertools import pairwise

_ROUNDS = 40
_CLOSE = 1e-7
_SAMPLES = 18


def find_root(miss: Callable[[float], float], now: float, low: float, high: float) -> float:
    """Return where a function is 0, nearest to now; where it never is, the least miss."""
    spots = [low + (high - low) * index / _SAMPLES for index in range(_SAMPLES + 1)]
    found = [(spot, miss(spot)) for spot in spots]
    roots = [_narrow(miss, start, end) for start, end in pairwise(found) if start[1] * end[1] <= 0]
    if roots:
        return min(roots, key=lambda spot: abs(spot - now))
    return min(found, key=lambda pair: abs(pair[1]))[0]


def _narrow(
    miss: Callable[[float], float], low: tuple[float, float], high: tuple[float, float]
) -> float:
    """Return where a function is 0 between two spots at which its signs differ.

    False position; an end that stays counts half, so that the other end stays in its turn.
    """
    for spot, value in (low, high):
        if abs(value) <= _CLOSE:
            return spot
    spot = low[0]
    for _ in range(_ROUNDS):
        spot = (low[0] * high[1] - high[0] * low[1]) / (high[1] - low[1])
        value = miss(spot)
        if abs(value) <= _CLOSE:
            break
        if low[1] * value < 0:
            low, high = (low[0], low[1] / 2), (spot, value)
        else:
            low, high = (spot, value), (high[0], high[1] / 2)
    return spot
