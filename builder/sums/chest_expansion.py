"""Chest expansion: the difference of two tape readings, against the same person's own."""

from dataclasses import dataclass

from builder.sums.citation import Citation, ours
from builder.sums.validity import OutsideValidityError, Validity

SCATTER_CM = 0.6
"""A change under this is scatter."""
LOW_CM = 2.5
BOCKENHAUER = Citation(
    "bockenhauer-2007",
    "Bockenhauer and others",
    2007,
    "repeatability of chest expansion by tape, standard deviation 0.6 cm",
    "Journal of the American Osteopathic Association",
)
NEW_YORK = Citation(
    "new-york-1966",
    "New York criteria",
    1966,
    "chest expansion of 2.5 cm or less at the fourth intercostal space",
    "as listed in rheumatology handbooks",
)
TWO_DATES = ours("two-dates", "2.5 cm or less on two dates: see a clinician")
_EXPANSION = Validity("expansion", "cm", 0, 30)
_GIRTH = Validity("girth", "cm", 40, 200)
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class ExpansionChange:
    """Two expansions of one person, the later less the earlier."""

    change_cm: float
    is_change: bool
    """False where it is within the scatter of the tape."""
    asks_for_clinician: bool
    """True where both are low: a reason to have it looked at, no finding."""
    citations: tuple[Citation, ...] = (BOCKENHAUER, NEW_YORK, TWO_DATES)


def measure_expansion_cm(breathed_out_cm: float, breathed_in_cm: float) -> float:
    """Return the difference of two girths in cm, each from 40 to 200.

    Raises `OutsideValidityError` for others, and where the chest got smaller.
    """
    out, full = _GIRTH.check(breathed_out_cm), _GIRTH.check(breathed_in_cm)
    if full < out:
        raise OutsideValidityError(
            f"girth breathed in {full:g} cm is under girth breathed out {out:g} cm: "
            "the two may have been changed over"
        )
    return full - out


def compare_expansions(earlier_cm: float, later_cm: float) -> ExpansionChange:
    """Compare two expansions of two dates, each from 0 to 30 cm.

    Raises `OutsideValidityError` for others.
    """
    change = _EXPANSION.check(later_cm) - _EXPANSION.check(earlier_cm)
    is_low = max(earlier_cm, later_cm) <= LOW_CM + _ROUNDING
    return ExpansionChange(change, abs(change) >= SCATTER_CM - _ROUNDING, is_low)
