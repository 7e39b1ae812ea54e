"""Lungs: volumes that published equations predict for sex, age and height.

A prediction is the middle of many people; a healthy person may well have a third less.
"""

import math
from dataclasses import dataclass

from builder.course.reference_body import AGE_YEARS, HEIGHT_CM, LungReference, ReferenceBody
from builder.sums import lung_splines as splines
from builder.sums.citation import Citation, ours
from builder.sums.validity import Validity

GLI_2021 = Citation(
    "gli-2021",
    "Hall and others",
    2021,
    "Global Lung Function Initiative, static lung volumes at 5 to 80 years, from 7,190 "
    "measurements of people of European ancestry",
    "European Respiratory Journal 57:2000289, table 3",
)
GLI_GLOBAL_2022 = Citation(
    "gli-global-2022",
    "Bowerman and others",
    2023,
    "Global Lung Function Initiative, equations of 2022 without race, at 3 to 95 years",
    "American Journal of Respiratory and Critical Care Medicine 207:768",
)
GROWN_UPS = ours("grown-ups", "lung volumes are worked out for grown-ups from 18 years on only")

_AGE_2021 = Validity("age", "years", *AGE_YEARS)
_AGE_2022 = Validity("age", "years", AGE_YEARS[0], 95)
_HEIGHT = Validity("height", "cm", *HEIGHT_CM)
_FIFTH_PERCENTILE_Z = -1.645


@dataclass(frozen=True, slots=True)
class PredictedVolume:
    """One lung volume of healthy people, in mL."""

    median_ml: float
    low_ml: float
    """One healthy person in twenty has less."""
    citations: tuple[Citation, ...] = (GLI_2021, GROWN_UPS)


@dataclass(frozen=True, slots=True)
class _Equation:
    """Median, skewness and coefficient of variation; litres, years and cm."""

    constant: float
    per_year: float
    per_log_height: float
    spline: tuple[float, ...]
    variation: tuple[float, float]
    skewness: float

    def predict(self, age_years: float, height_cm: float) -> PredictedVolume:
        age, height = _AGE_2021.check(age_years), _HEIGHT.check(height_cm)
        straight = self.constant + self.per_year * age + self.per_log_height * math.log(height)
        median_ml = 1000 * math.exp(straight + _read(self.spline, age))
        variation = math.exp(self.variation[0] + self.variation[1] * age)
        low = (1 + _FIFTH_PERCENTILE_Z * self.skewness * variation) ** (1 / self.skewness)
        return PredictedVolume(median_ml, low * median_ml)


_INSPIRATORY = {
    LungReference.FEMALE: _Equation(
        *(-9.4438787, -0.0002484, 2.0312769, splines.IC_FEMALE, (-1.775276, 0.002673), 0.9726)
    ),
    LungReference.MALE: _Equation(
        *(-10.121688, 0.001265, 2.188801, splines.IC_MALE, (-1.856546, 0.002008), 1.146)
    ),
}
_VITAL = {
    LungReference.FEMALE: _Equation(
        *(-9.230600, -0.005517, 2.116822, splines.VC_FEMALE, (-2.220260, 0.002956), 1.038)
    ),
    LungReference.MALE: _Equation(
        *(-10.134371, -0.003532, 2.307980, splines.VC_MALE, (-2.1367411, 0.0009367), 0.8611)
    ),
}
_FORCED_VITAL = {
    LungReference.FEMALE: (-12.055901, 2.621579, -0.035975, splines.FVC_FEMALE),
    LungReference.MALE: (-12.629131, 2.727421, 0.009174, splines.FVC_MALE),
}


def predict_inspiratory_capacity(body: ReferenceBody) -> PredictedVolume:
    """Return the most that a body can breathe in from the end of a quiet out-breath. GLI-2021."""
    equation = _INSPIRATORY[body.lung_reference]
    return equation.predict(body.age_years, body.height_cm)


def predict_vital_capacity(body: ReferenceBody) -> PredictedVolume:
    """Return the most that a body can move in one slow breath. GLI-2021."""
    return _VITAL[body.lung_reference].predict(body.age_years, body.height_cm)


def predict_forced_vital_capacity_ml(
    age_years: float, height_cm: float, reference: LungReference
) -> float:
    """Return the median of the most that people blow out in one forced breath. GLI Global 2022.

    Ages from 18 to 95 years, heights from 140 to 220 cm; raises `OutsideValidityError` for others.
    """
    constant, per_log_height, per_log_age, spline = _FORCED_VITAL[reference]
    age, height = _AGE_2022.check(age_years), _HEIGHT.check(height_cm)
    straight = constant + per_log_height * math.log(height) + per_log_age * math.log(age)
    return 1000 * math.exp(straight + _read(spline, age))


def _read(spline: tuple[float, ...], age_years: float) -> float:
    """Return the spline at an age, on the line between whole years."""
    place = age_years - splines.FIRST_AGE_YEARS
    index = min(int(place), len(spline) - 2)
    share = place - index
    return spline[index] * (1 - share) + spline[index + 1] * share
