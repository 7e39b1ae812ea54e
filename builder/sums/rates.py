"""Rates: which published band a number of breaths a minute falls into."""

from dataclasses import dataclass
from enum import StrEnum

from builder.course.trait import BRISK_RATE_PER_MINUTE, SLOW_RATE_PER_MINUTE
from builder.sums.citation import Citation
from builder.sums.validity import Validity

_SLOW_FROM_PER_MINUTE = 4.0
_RESTING_FROM_PER_MINUTE = 12.0
RUSSO = Citation(
    "russo-2017",
    "Russo, Santarelli and O'Rourke",
    2017,
    "slow breathing as 4 to 10 breaths a minute",
    "Breathe 13:298",
)
NEWS2 = Citation(
    "news2-2017",
    "Royal College of Physicians",
    2017,
    "a resting adult's 12 to 20 breaths a minute",
    "National Early Warning Score (NEWS) 2",
)
_RATE = Validity("rate", "breaths a minute", 0.25, 60)


class RateBand(StrEnum):
    """Bands of breaths a minute, slowest first; the value is how people are told."""

    UNDER_SLOW = "slower than slow breathing"
    SLOW = "slow breathing"
    UNDER_RESTING = "between slow and resting"
    RESTING = "as a resting adult"
    BRISK = "brisk"


@dataclass(frozen=True, slots=True)
class Rate:
    """Breaths a minute with the band that they fall into."""

    per_minute: float
    band: RateBand
    citations: tuple[Citation, ...] = (RUSSO, NEWS2)


def classify_rate(per_minute: float) -> Rate:
    """Return the band of a rate from 0.25 to 60 breaths a minute.

    Slow is 4 to 10, resting 12 to 20, brisk over 20; ends belong to the band that they name.
    """
    rate = _RATE.check(per_minute)
    if rate > BRISK_RATE_PER_MINUTE:
        return Rate(rate, RateBand.BRISK)
    if rate >= _RESTING_FROM_PER_MINUTE:
        return Rate(rate, RateBand.RESTING)
    if rate > SLOW_RATE_PER_MINUTE:
        return Rate(rate, RateBand.UNDER_RESTING)
    return Rate(rate, RateBand.SLOW if rate >= _SLOW_FROM_PER_MINUTE else RateBand.UNDER_SLOW)
