"""Ventilation: how much air each breath must carry at a rate, for a body at an effort.

A steady state, so an upper bound for short sets. It compares a count with a drill; it says
nothing about anybody's gases or health.
"""

from dataclasses import dataclass
from enum import StrEnum

from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

MMHG_LITRES = 0.863
"""Turns CO2 in mL/min (STPD) over ventilation in L/min (BTPS) into mmHg; 760 × 310/273 / 1000."""
ARTERIAL_CO2_MMHG = 40.0
EXCHANGE_RATIO = 0.8
"""CO2 given off over oxygen taken up."""
OXYGEN_PER_MET_ML_PER_KG_MIN = 3.5
DEAD_SPACE_ML_PER_KG = 2.2

# Editions and years of the next three are from memory.
CO2_EQUATION = Citation(
    "co2-equation", "West", 2012, "PaCO2 = 0.863 × VCO2 / VA", "Respiratory Physiology, 9th edition"
)
IDEAL_WEIGHT = Citation(
    "devine-1974", "Devine", 1974, "ideal weight from height, as used by the ARDS Network", ""
)
DEAD_SPACE = Citation(
    "radford-1955",
    "Radford",
    1955,
    "anatomical dead space of about 2.2 mL per kg of ideal weight, an estimate",
    "Journal of Applied Physiology",
)
STEADY_STATE = ours("steady-state", "a set is taken for a steady state, an upper bound")

_HEIGHT = Validity("height", "cm", 152.4, 220)
_WEIGHT = Validity("weight", "kg", 30, 250)
_EFFORT = Validity("effort", "MET", 0.9, 8)
_RATE = Validity("rate", "breaths a minute", 1, 60)


class LungReference(StrEnum):
    """Which published equations a body is compared with."""

    FEMALE = "female"
    MALE = "male"


@dataclass(frozen=True, slots=True)
class NeededBreath:
    """The breath that a rate and an effort ask for."""

    alveolar_l_per_min: float
    """Ventilation that reaches the lungs' air sacs, BTPS."""
    dead_space_ml: float
    tidal_ml: float
    citations: tuple[Citation, ...] = (CO2_EQUATION, IDEAL_WEIGHT, DEAD_SPACE, STEADY_STATE)


def find_ideal_weight_kg(height_cm: float, reference: LungReference) -> float:
    """Return the ideal weight in kg for a height from 152.4 to 220 cm.

    Raises `OutsideValidityError` for others. Source: Devine 1974.
    """
    start = 50.0 if reference is LungReference.MALE else 45.5
    return start + 0.91 * (_HEIGHT.check(height_cm) - _HEIGHT.least)


def find_dead_space_ml(height_cm: float, reference: LungReference) -> float:
    """Return the air in mL that a breath moves to and fro in the airways. Source: Radford 1955."""
    return DEAD_SPACE_ML_PER_KG * find_ideal_weight_kg(height_cm, reference)


def find_co2_ml_per_min(weight_kg: float, effort_met: float) -> float:
    """Return the CO2 in mL/min (STPD) of a body of 30 to 250 kg at 0.9 to 8 MET."""
    oxygen = OXYGEN_PER_MET_ML_PER_KG_MIN * _WEIGHT.check(weight_kg) * _EFFORT.check(effort_met)
    return EXCHANGE_RATIO * oxygen


def find_alveolar_l_per_min(co2_ml_per_min: float) -> float:
    """Return the ventilation in L/min (BTPS) that keeps CO2 at 40 mmHg. Source: West."""
    return MMHG_LITRES * co2_ml_per_min / ARTERIAL_CO2_MMHG


def find_needed_breath(
    rate_per_min: float,
    *,
    effort_met: float,
    height_cm: float,
    weight_kg: float,
    reference: LungReference,
) -> NeededBreath:
    """Return the breath that a rate asks for; each input is refused outside its range."""
    alveolar = find_alveolar_l_per_min(find_co2_ml_per_min(weight_kg, effort_met))
    dead_space = find_dead_space_ml(height_cm, reference)
    tidal = dead_space + 1000 * alveolar / _RATE.check(rate_per_min)
    return NeededBreath(alveolar, dead_space, tidal)
