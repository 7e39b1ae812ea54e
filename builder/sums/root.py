"""Where a function of one number is nought."""

from collections.abc import Callable
from itertools import pairwise

_HALVINGS = 24
_SAMPLES = 18


def find_root(miss: Callable[[float], float], now: float, low: float, high: float) -> float:
    """Return where a function is 0, nearest to now; where it never is, the least miss."""
    spots = [low + (high - low) * index / _SAMPLES for index in range(_SAMPLES + 1)]
    found = [(spot, miss(spot)) for spot in spots]
    roots = [_halve(miss, start, end) for start, end in pairwise(found) if start[1] * end[1] <= 0]
    if roots:
        return min(roots, key=lambda spot: abs(spot - now))
    return min(found, key=lambda pair: abs(pair[1]))[0]


def _halve(
    miss: Callable[[float], float], low: tuple[float, float], high: tuple[float, float]
) -> float:
    """Return where a function is 0 between two spots at which its signs differ."""
    for _ in range(_HALVINGS):
        spot = (low[0] + high[0]) / 2
        value = miss(spot)
        if low[1] * value <= 0:
            high = spot, value
        else:
            low = spot, value
    return (low[0] + high[0]) / 2
