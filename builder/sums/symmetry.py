"""Symmetry: how a person's weaker side compares with the stronger one. It names no cause."""

from dataclasses import dataclass

from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

EVEN_PERCENT = 90.0
_ROUNDING = 1e-9
FORMULA = "smaller / larger × 100"
MARKSTROM = Citation(
    "markstrom-2022",
    "Markström and others",
    2022,
    "limb symmetry index of healthy people as worse over better side, even from 90 %",
    "Sports Health 15",
)
WEAKER_FIRST = ours("weaker-first", "below 90 % the weaker side starts and gets one set more")
_READING = Validity("reading", "units", 1e-9, 1e9)


@dataclass(frozen=True, slots=True)
class Symmetry:
    """Two sides compared."""

    index_percent: float
    """From just over 0 to 100."""
    weaker_side: str | None
    """``left`` or ``right``; None where the sides are even."""
    citations: tuple[Citation, ...] = (MARKSTROM, WEAKER_FIRST)

    @property
    def is_even(self) -> bool:
        """Tell whether the index is 90 or over."""
        return self.index_percent >= EVEN_PERCENT - _ROUNDING


def compare_sides(left: float, right: float) -> Symmetry:
    """Compare two readings of one measure, where more is better, both over 0 in the same unit.

    Raises `OutsideValidityError` for others.
    """
    low, high = sorted((_READING.check(left), _READING.check(right)))
    index = low / high * 100
    is_even = index >= EVEN_PERCENT - _ROUNDING
    return Symmetry(index, None if is_even else ("left" if left < right else "right"))
