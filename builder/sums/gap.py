"""Gap: what is left to the floor in a turn, by ruler; smaller is further."""

from dataclasses import dataclass

from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

TWO_LOOKS = ours(
    "two-looks", "a gap has changed when it differs by more than two looks on one day did"
)
_GAP = Validity("gap", "cm", 0, 100)
_LEAST_SCATTER_CM = 1.0
"""A ruler read in whole centimetres can't tell less apart."""


@dataclass(frozen=True, slots=True)
class GapChange:
    """Two dates of one person and side."""

    change_cm: float
    """The later less the earlier; negative is further."""
    scatter_cm: float
    """How far two looks on the first date differed, at least a centimetre."""
    is_change: bool
    citations: tuple[Citation, ...] = (TWO_LOOKS,)


def compare_gaps(first_look_cm: float, second_look_cm: float, later_cm: float) -> GapChange:
    """Compare a later gap with the two looks of an earlier date, each from 0 to 100 cm.

    The smaller of the two looks stands for the earlier date. Raises `OutsideValidityError` for
    others. Ours.
    """
    first, second = _GAP.check(first_look_cm), _GAP.check(second_look_cm)
    scatter = max(abs(first - second), _LEAST_SCATTER_CM)
    change = _GAP.check(later_cm) - min(first, second)
    return GapChange(change, scatter, abs(change) > scatter)
