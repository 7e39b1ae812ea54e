"""Formulas: every sum that a coach may be shown, in words, with the sources of its code.

A test sees to it that no citation of the code is missing here.
"""

from dataclasses import dataclass

from builder.sums import (
    advance,
    air,
    body,
    breath_hold,
    chest_expansion,
    contrast,
    energy,
    everyday_units,
    gap,
    joint_limits,
    ladder,
    lungs,
    paper,
    practice,
    rates,
    readability,
    reading_grade,
    symmetry,
    ventilation,
)
from builder.sums.citation import Citation


@dataclass(frozen=True, slots=True)
class Formula:
    """One sum: its name, how it goes, and where that comes from."""

    title: str
    text: str
    citations: tuple[Citation, ...]


FORMULAS = (
    Formula(
        "Breaths a minute",
        "60 / (in + hold + out + hold), in seconds; slow 4 to 10, resting adult 12 to 20",
        (rates.RUSSO, rates.NEWS2),
    ),
    Formula(
        "Effort",
        "MET of an activity by code and edition; 1 MET is 3.5 mL of oxygen per kg a minute",
        (energy.AINSWORTH, energy.HERRMANN, energy.OXYGEN_PER_MET),
    ),
    Formula(
        "Air that must reach the lungs, L/min",
        "0.863 × CO2 / 40 mmHg, with CO2 = 0.8 × 3.5 × kg × MET in mL/min",
        (ventilation.CO2_EQUATION, ventilation.EVERY_AGE, ventilation.STEADY_STATE),
    ),
    Formula(
        "Dead space, mL",
        "2.2 × ideal weight; ideal weight = 50 (men) or 45.5 (women) + 0.91 × (cm - 152.4)",
        (ventilation.DEAD_SPACE, ventilation.IDEAL_WEIGHT, ventilation.SHORT_BODIES),
    ),
    Formula(
        "Needed breath, mL",
        "dead space + 1000 × air / breaths a minute",
        (ventilation.CO2_EQUATION, ventilation.DEAD_SPACE),
    ),
    Formula(
        "Inspiratory and vital capacity",
        "exp(a + b × age + c × ln(height) + spline of age), for sex, by published tables",
        (lungs.GLI_2021, lungs.GROWN_UPS),
    ),
    Formula(
        "Forced vital capacity",
        "exp(a + b × ln(height) + c × ln(age) + spline of age), for sex, by published tables",
        (lungs.GLI_GLOBAL_2022, lungs.GROWN_UPS),
    ),
    Formula(
        "Air check",
        "needed breath / inspiratory capacity; big from 50 %, too big from 100 %",
        (air.AIR_LIMITS, air.SHORT_SETS),
    ),
    Formula(
        "Tempo ladder",
        "rungs of at most 10 % more; the next one after ready twice in a row",
        (ladder.RATAMESS, ladder.RUNGS, ladder.TWICE_READY),
    ),
    Formula(
        "Holds at home",
        "at most half of the comfortable hold",
        (breath_hold.HALF_AT_HOME, ladder.NO_HOLD),
    ),
    Formula(
        "A change of a hold",
        "best of up to three; a change from 20 % on",
        (breath_hold.TREMBACH, breath_hold.CHANGE_FROM_20_PERCENT),
    ),
    Formula(
        "Symmetry",
        f"{symmetry.FORMULA}; even from 90",
        (symmetry.MARKSTROM, symmetry.WEAKER_FIRST),
    ),
    Formula(
        "Chest expansion",
        "girth breathed in - girth breathed out; a change from 0.6 cm on",
        (chest_expansion.BOCKENHAUER, chest_expansion.NEW_YORK, chest_expansion.TWO_DATES),
    ),
    Formula(
        "Gap left to the floor",
        "later - smaller of two earlier looks; a change when it is more than the looks differ",
        (gap.TWO_LOOKS, gap.ONE_LOOK, gap.GAP_SIDES),
    ),
    Formula(
        "Going on, going back, looking again",
        "on after ready twice, back after easier twice or six weeks away, measured every two weeks",
        (
            *(advance.READY_TWICE, advance.WEAKER_OUTCOME, advance.EASIER_TWICE),
            *(advance.SIX_WEEKS, advance.AGAIN_THREE_TIMES, advance.TWO_WEEKS),
        ),
    ),
    Formula(
        "Practice over a week",
        "60 s a stretch on 2 days and more; control and resistance on 2 to 3 days, one between",
        (practice.GARBER, practice.DAY_BETWEEN, practice.REST_STEP),
    ),
    Formula(
        "Reading grade",
        "0.39 × words / sentences + 11.8 × syllables / words - 15.59",
        (reading_grade.FLESCH, reading_grade.KINCAID, reading_grade.WEISS),
    ),
    Formula(
        "Reading ease of Spanish",
        "206.835 - 62.3 × syllables / words - words / sentences; fairly easy from 65 on",
        (readability.SZIGRISZT, readability.BARRIO),
    ),
    Formula(
        "Reading grade of German",
        "0.1935 × share of words with 3 syllables and more + 0.1672 × words / sentences "
        "+ 0.1297 × share with 7 letters and more - 0.0327 × share with 1 syllable - 0.875",
        (readability.BAMBERGER,),
    ),
    Formula(
        "Figures",
        "segments as parts of height; joints within the published range",
        (
            *(body.DRILLIS, body.THICKNESSES),
            *(joint_limits.FEDERAL_RULE, joint_limits.JOINT_MOTION, joint_limits.OWN_LIMITS),
        ),
    ),
    Formula(
        "Colours and paper",
        "(lighter + 0.05) / (darker + 0.05) of 4.5 and more; sheets of the A series",
        (contrast.WCAG, paper.ISO_216),
    ),
    Formula(
        "Feet, inches and pounds",
        "cm / 2.54 and kg / 0.45359237, where a country measures people so",
        (everyday_units.YARD_AND_POUND,),
    ),
)
"""In the order in which a coach meets them."""
