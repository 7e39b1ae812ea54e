"""Breath-holds: the best of comparable trials, a change beyond scatter, and the most at home.

A hold's length says nothing about anybody's gases or health, and no word here claims it does.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

SCATTER_SHARE = 0.20
HOME_SHARE = 0.5
TREMBACH = Citation(
    "trembach-2017",
    "Trembach and Zabolotskikh",
    2017,
    "retest of breath-holds, coefficient of variation 6 ± 4 %",
    "Respiratory Physiology & Neurobiology 235",
)
CHANGE_FROM_20_PERCENT = ours("hold-change", "a hold has changed from 20 % on")
HALF_AT_HOME = ours("half-hold", "holds at home stay at or under half of the comfortable hold")
_SECONDS = Validity("hold", "s", 0.5, 300)
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class HoldChange:
    """Two holds of one person under like conditions."""

    change_percent: float
    """Of the earlier one."""
    is_change: bool
    citations: tuple[Citation, ...] = (TREMBACH, CHANGE_FROM_20_PERCENT)


def take_best_seconds(trials: Sequence[float]) -> float:
    """Return the longest of one to three like trials in seconds, each from 0.5 to 300.

    Raises `OutsideValidityError` for other holds, and `ValueError` for none or more than three.
    """
    if not 1 <= len(trials) <= 3:
        raise ValueError(f"{len(trials)} trials: a hold is the best of one to three")
    return max(_SECONDS.check(trial) for trial in trials)


def compare_holds(earlier_s: float, later_s: float) -> HoldChange:
    """Compare two holds in seconds."""
    share = _SECONDS.check(later_s) / _SECONDS.check(earlier_s) - 1
    return HoldChange(share * 100, abs(share) >= SCATTER_SHARE - _ROUNDING)


def find_most_at_home_seconds(comfortable_s: float) -> float:
    """Return the longest hold at home: half of the comfortable one (ours)."""
    return HOME_SHARE * _SECONDS.check(comfortable_s)
