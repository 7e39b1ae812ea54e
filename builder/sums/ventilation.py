"""Ventilation: how much air each breath must carry at a rate, for a body at an effort.

A steady state, so an upper bound for short sets. It compares a count with a drill; it says
nothing about anybody's gases or health.
"""

from dataclasses import dataclass

from builder.course.reference_body import HEIGHT_CM, WEIGHT_KG, LungReference, ReferenceBody
from builder.course.vocabulary import EFFORT_MET
from builder.sums.citation import Citation, ours
from builder.sums.energy import OXYGEN_PER_MET, OXYGEN_PER_MET_ML_PER_KG_MIN
from builder.sums.validity import Validity

MMHG_LITRES = 0.863
"""Turns CO2 in mL/min (STPD) over ventilation in L/min (BTPS) into mmHg; 760 × 310/273 / 1000."""
ARTERIAL_CO2_MMHG = 40.0
EXCHANGE_RATIO = 0.8
"""CO2 given off over oxygen taken up."""
DEAD_SPACE_ML_PER_KG = 2.2
_FIVE_FEET_CM = 152.4

# Editions and years of the next three are from memory.
CO2_EQUATION = Citation(
    "co2-equation", "West", 2012, "PaCO2 = 0.863 × VCO2 / VA", "Respiratory Physiology, 9th edition"
)
IDEAL_WEIGHT = Citation(
    "devine-1974",
    "Devine",
    1974,
    "ideal weight from height, as used by the ARDS Network",
    "Drug Intelligence and Clinical Pharmacy 8",
)
DEAD_SPACE = Citation(
    "radford-1955",
    "Radford",
    1955,
    "anatomical dead space of about 2.2 mL per kg of ideal weight, an estimate",
    "Journal of Applied Physiology 7",
)
STEADY_STATE = ours("steady-state", "a set is taken for a steady state, an upper bound")
EVERY_AGE = ours("every-age", "MET values of adults of 19 to 59 are taken for older ones too")
SHORT_BODIES = ours(
    "short-bodies", "the line of ideal weight goes on from its start at 152.4 cm down to 140 cm"
)

_HEIGHT = Validity("height", "cm", *HEIGHT_CM)
_WEIGHT = Validity("weight", "kg", *WEIGHT_KG)
_EFFORT = Validity("effort", "MET", *EFFORT_MET)
_RATE = Validity("rate", "breaths a minute", 0.25, 60)


@dataclass(frozen=True, slots=True)
class NeededBreath:
    """The breath that a rate and an effort ask for."""

    alveolar_l_per_min: float
    """Ventilation that reaches the lungs' air sacs, BTPS."""
    dead_space_ml: float
    tidal_ml: float
    citations: tuple[Citation, ...] = (
        *(CO2_EQUATION, OXYGEN_PER_MET, IDEAL_WEIGHT, DEAD_SPACE),
        *(EVERY_AGE, STEADY_STATE, SHORT_BODIES),
    )


def find_ideal_weight_kg(height_cm: float, reference: LungReference) -> float:
    """Return the ideal weight in kg for a height from 140 to 220 cm.

    Raises `OutsideValidityError` for others. Source: Devine 1974; under 152.4 cm the line is ours.
    """
    start = 50.0 if reference is LungReference.MALE else 45.5
    return start + 0.91 * (_HEIGHT.check(height_cm) - _FIVE_FEET_CM)


def find_dead_space_ml(height_cm: float, reference: LungReference) -> float:
    """Return the air in mL that a breath moves to and fro in the airways. Source: Radford 1955."""
    return DEAD_SPACE_ML_PER_KG * find_ideal_weight_kg(height_cm, reference)


def find_co2_ml_per_min(weight_kg: float, effort_met: float) -> float:
    """Return the CO2 in mL/min (STPD) of a body of 30 to 250 kg at 0.8 to 12 MET."""
    oxygen = OXYGEN_PER_MET_ML_PER_KG_MIN * _WEIGHT.check(weight_kg) * _EFFORT.check(effort_met)
    return EXCHANGE_RATIO * oxygen


def find_alveolar_l_per_min(co2_ml_per_min: float) -> float:
    """Return the ventilation in L/min (BTPS) that keeps CO2 at 40 mmHg. Source: West."""
    return MMHG_LITRES * co2_ml_per_min / ARTERIAL_CO2_MMHG


def find_needed_breath(rate_per_min: float, effort_met: float, body: ReferenceBody) -> NeededBreath:
    """Return the breath that a rate from 0.25 to 60 a minute asks of a body at an effort.

    Raises `OutsideValidityError` for rates and efforts outside their ranges.
    """
    alveolar, dead_space = _find_air(effort_met, body)
    tidal = dead_space + 1000 * alveolar / _RATE.check(rate_per_min)
    return NeededBreath(alveolar, dead_space, tidal)


def find_rate_for_breath_per_min(tidal_ml: float, effort_met: float, body: ReferenceBody) -> float:
    """Return the slowest rate whose needed breath is no bigger than one in mL.

    The inverse of `find_needed_breath`. Raises `OutsideValidityError` for a breath that doesn't
    even fill the dead space.
    """
    alveolar, dead_space = _find_air(effort_met, body)
    reached = Validity("breath", "mL", dead_space + 1, 20_000).check(tidal_ml) - dead_space
    return 1000 * alveolar / reached


def _find_air(effort_met: float, body: ReferenceBody) -> tuple[float, float]:
    """Return alveolar ventilation in L/min and dead space in mL."""
    alveolar = find_alveolar_l_per_min(find_co2_ml_per_min(body.weight_kg, effort_met))
    return alveolar, find_dead_space_ml(body.height_cm, body.lung_reference)
