"""Where a function of one number is nought."""

from collections.abc import Callable
from functools import cache
from itertools import pairwise

_ROUNDS = 40
_CLOSE = 1e-7
_SAMPLES = 18


def find_root(miss: Callable[[float], float], now: float, low: float, high: float) -> float:
    """Return where a function is 0, nearest to now; where it never is, the least miss.

    It is looked at from now outwards, as far as a nearer 0 may lie.
    """
    look = cache(miss)
    spots = [low + (high - low) * index / _SAMPLES for index in range(_SAMPLES + 1)]
    roots: list[tuple[float, float]] = []
    for gap, start, end in sorted((_gap(now, *span), *span) for span in pairwise(spots)):
        if roots and gap > min(roots)[0]:
            break
        if look(start) * look(end) <= 0:
            root = _narrow(miss, (start, look(start)), (end, look(end)))
            roots.append((abs(root - now), root))
    return min(roots)[1] if roots else min(spots, key=lambda spot: abs(look(spot)))


def _gap(now: float, low: float, high: float) -> float:
    """Return how far a span of numbers is from now; below 0 where now is within it."""
    return max(low - now, now - high)


def _narrow(
    miss: Callable[[float], float], low: tuple[float, float], high: tuple[float, float]
) -> float:
    """Return where a function is 0 between two spots at which its signs differ.

    False position; an end that stays counts half, so that the other end stays in its turn.
    """
    for spot, value in (low, high):
        if abs(value) <= _CLOSE:
            return spot
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
