"""Energy: MET values of published activities by edition, and what they cost.

The 2011 and 2024 editions differ by up to 0.3 MET at rest and are never mixed in one value.
"""

from dataclasses import dataclass
from enum import StrEnum

from builder.course.reference_body import WEIGHT_KG
from builder.course.vocabulary import EFFORT_MET
from builder.sums.citation import Citation
from builder.sums.validity import OutsideValidityError, Validity

OXYGEN_PER_MET_ML_PER_KG_MIN = 3.5
KCAL_PER_LITRE_OXYGEN = 5.0
_LIGHT_FROM_MET, _MODERATE_FROM_MET, _VIGOROUS_FROM_MET = 1.6, 3.0, 6.0

AINSWORTH = Citation(
    "compendium-2011",
    "Ainsworth and others",
    2011,
    "Compendium of Physical Activities, second update",
    "Medicine & Science in Sports & Exercise 43:1575",
)
HERRMANN = Citation(
    "compendium-2024",
    "Herrmann and others",
    2024,
    "Adult Compendium of Physical Activities, third update, for 19 to 59 years",
    "Journal of Sport and Health Science 13:6",
)
OXYGEN_PER_MET = Citation(
    "liu-2022",
    "Liu and others",
    2022,
    "one MET as 3.5 mL of oxygen per kg a minute; lying, sitting and standing measured at 1.3",
    "International Journal of Exercise Science 15:1202",
)

_EFFORT = Validity("effort", "MET", *EFFORT_MET)
_WEIGHT = Validity("weight", "kg", *WEIGHT_KG)


class Edition(StrEnum):
    """An edition of the Compendium, as efforts in ``course.yml`` name it."""

    OF_2011 = "Compendium 2011"
    OF_2024 = "Compendium 2024"

    @property
    def citation(self) -> Citation:
        """Return where its values were published."""
        return AINSWORTH if self is Edition.OF_2011 else HERRMANN


class EffortClass(StrEnum):
    """How hard an effort is, by the Compendium's bands."""

    REST = "rest"
    LIGHT = "light"
    MODERATE = "moderate"
    VIGOROUS = "vigorous"


@dataclass(frozen=True, slots=True)
class Activity:
    """One activity with its MET in each edition; None where the edition hasn't got it."""

    title: str
    met_2011: float | None
    met_2024: float | None


ACTIVITIES = {
    "07010": Activity("lying, watching television", 1.0, 1.0),
    "07011": Activity("lying quietly awake", 1.3, 1.0),
    "07021": Activity("sitting quietly", 1.3, 1.0),
    "07040": Activity("standing quietly", 1.3, None),
    "07075": Activity("meditating", 1.0, None),
    "02101": Activity("mild stretching", 2.3, 2.3),
    "02103": Activity("mat work, traditional", None, 1.8),
    "02105": Activity("mat work, general", 3.0, 2.8),
    "02150": Activity("hatha yoga", 2.5, 2.3),
    "02170": Activity("nostril breathing", 2.0, 2.0),
    "02180": Activity("sun salutation", 3.3, 3.5),
    "02024": Activity("calisthenics, light", 2.8, 2.8),
    "02030": Activity("calisthenics, light to moderate, floor and back", 3.5, 3.5),
    "02022": Activity("calisthenics, moderate", 3.8, 3.8),
    "02020": Activity("calisthenics, vigorous", 8.0, 7.5),
    "02054": Activity("weights, 8 to 15 repetitions", 3.5, 3.5),
    "02056": Activity("own body weight, general", None, 3.0),
    "02064": Activity("exercise at home, general", 3.8, 3.8),
}
"""By the Compendium's code: the ones near to what a breathing course asks."""


def find_met(code: str, edition: Edition) -> float:
    """Return the MET of an activity by code and edition.

    Raises `OutsideValidityError` where the edition hasn't got it, or where it isn't listed here.
    """
    activity = ACTIVITIES.get(code)
    if activity is None:
        raise OutsideValidityError(f"the code {code} is not among the activities listed here")
    met = activity.met_2011 if edition is Edition.OF_2011 else activity.met_2024
    if met is None:
        raise OutsideValidityError(f"the code {code} has no value in the {edition}")
    return met


def find_kcal_per_min(effort_met: float, weight_kg: float) -> float:
    """Return the energy in kcal a minute, at 5 kcal a litre of oxygen.

    Common practice; efforts from 0.8 to 12 MET, weights from 30 to 250 kg.
    """
    oxygen_ml = OXYGEN_PER_MET_ML_PER_KG_MIN * _EFFORT.check(effort_met) * _WEIGHT.check(weight_kg)
    return KCAL_PER_LITRE_OXYGEN * oxygen_ml / 1000


def classify_effort(effort_met: float) -> EffortClass:
    """Return the class of an effort: light from 1.6, moderate from 3, vigorous from 6 MET."""
    bounds = (_LIGHT_FROM_MET, _MODERATE_FROM_MET, _VIGOROUS_FROM_MET)
    passed = sum(_EFFORT.check(effort_met) >= bound for bound in bounds)
    return tuple(EffortClass)[passed]
