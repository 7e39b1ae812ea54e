"""Gap: what is left to the floor in a turn, by ruler; smaller is further."""

from dataclasses import dataclass

from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

TWO_LOOKS = ours(
    "two-looks", "a gap has changed when it differs by more than two looks on one day did"
)
ONE_LOOK = ours("one-look", "with one look on a day a gap has changed when it differs by over 2 cm")
GAP_SIDES = ours(
    "gap-sides",
    "two gaps differ from side to side by over 2 cm, the larger one is the weaker side; they are "
    "not divided, because a gap may be 0",
)
SCATTER_CM = 2.0
"""What one look at a gap is taken to scatter by; no publication says how much (ours)."""
_GAP = Validity("gap", "cm", 0, 100)
_LEAST_SCATTER_CM = 1.0
"""A ruler read in whole centimetres can't tell less apart."""
_ROUNDING = 1e-9


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


@dataclass(frozen=True, slots=True)
class GapSides:
    """Two sides of one person on one day."""

    difference_cm: float
    """From 0 up; which side it favours is told by ``weaker_side``."""
    weaker_side: str | None
    """``left`` or ``right``, the side with the larger gap; None where they are alike."""
    citations: tuple[Citation, ...] = (GAP_SIDES,)


def compare_single_gaps(earlier_cm: float, later_cm: float) -> GapChange:
    """Compare gaps of two dates with one look each, from 0 to 100 cm.

    Raises `OutsideValidityError` for others. Ours.
    """
    change = _GAP.check(later_cm) - _GAP.check(earlier_cm)
    return GapChange(change, SCATTER_CM, abs(change) > SCATTER_CM + _ROUNDING, (ONE_LOOK,))


def compare_gap_sides(left_cm: float, right_cm: float) -> GapSides:
    """Compare the gaps of both sides, each from 0 to 100 cm.

    Raises `OutsideValidityError` for others. Ours.
    """
    difference = _GAP.check(left_cm) - _GAP.check(right_cm)
    if abs(difference) <= SCATTER_CM + _ROUNDING:
        return GapSides(abs(difference), None)
    return GapSides(abs(difference), "left" if difference > 0 else "right")
