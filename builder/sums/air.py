"""Air: whether a count asks too big a breath of a body at an effort.

It answers "is this count too slow for this drill and this body?", never more.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from builder.course.reference_body import ReferenceBody
from builder.sums.citation import Citation, ours
from builder.sums.lungs import PredictedVolume, predict_inspiratory_capacity
from builder.sums.validity import Validity
from builder.sums.ventilation import (
    NeededBreath,
    find_needed_breath,
    find_rate_for_breath_per_min,
)

BIG_SHARE = 0.5
TOO_BIG_SHARE = 1.0
SHORT_SET_SECONDS = 60.0
AIR_LIMITS = ours(
    "air-limits",
    "a breath is big from 50 % of the predicted inspiratory capacity on, too big from 100 %",
)
SHORT_SETS = ours("short-sets", "sets under 60 s are shown, not flagged")
_CYCLE = Validity("breath", "s", 1, 240)
_ROUNDING = 1e-9


class BreathSize(StrEnum):
    """How big the needed breath is beside the body's capacity."""

    EASY = "easy"
    BIG = "big"
    TOO_BIG = "too big"


@dataclass(frozen=True, slots=True)
class AirShare:
    """The needed breath of one body beside what it can breathe in at most."""

    body: ReferenceBody
    needed: NeededBreath
    capacity: PredictedVolume

    @property
    def share(self) -> float:
        """Return the needed breath as a part of the predicted inspiratory capacity; 1 is all."""
        return self.needed.tidal_ml / self.capacity.median_ml

    @property
    def percent(self) -> int:
        """Return the share in whole percent, never rounded up over a limit that it is under."""
        rounded = math.floor(100 * self.share + 0.5)
        limits = {BreathSize.EASY: BIG_SHARE, BreathSize.BIG: TOO_BIG_SHARE}
        limit = limits.get(self.size)
        return rounded if limit is None else min(rounded, math.ceil(100 * limit) - 1)

    @property
    def size(self) -> BreathSize:
        """Return how big the breath is, by the limits of our own."""
        if self.share >= TOO_BIG_SHARE - _ROUNDING:
            return BreathSize.TOO_BIG
        return BreathSize.BIG if self.share >= BIG_SHARE - _ROUNDING else BreathSize.EASY

    @property
    def citations(self) -> tuple[Citation, ...]:
        """Return what the numbers rest on, and what of them is ours."""
        return (*self.needed.citations, *self.capacity.citations, AIR_LIMITS, SHORT_SETS)


def find_air_share(cycle_seconds: float, effort_met: float, body: ReferenceBody) -> AirShare:
    """Return what breaths of a length in seconds ask of a body at an effort in MET.

    Raises `OutsideValidityError` for what the sums aren't made for.
    """
    needed = find_needed_breath(60 / _CYCLE.check(cycle_seconds), effort_met, body)
    return AirShare(body, needed, predict_inspiratory_capacity(body))


def find_longest_cycle_seconds(
    effort_met: float, body: ReferenceBody, share: float = BIG_SHARE
) -> float:
    """Return the cycle at which the needed breath is a share of the capacity.

    The inverse of `find_air_share`; it may lie outside what that takes. Raises
    `OutsideValidityError` where no cycle is short enough.
    """
    most_ml = share * predict_inspiratory_capacity(body).median_ml
    return 60 / find_rate_for_breath_per_min(most_ml, effort_met, body)
