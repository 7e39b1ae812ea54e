"""Energy against the Compendium of Physical Activities and the usual worked example.

Values of 2011: Ainsworth and others; of 2024: Herrmann and others, by a public transcription of
the code table. One MET as 3.5 mL/kg/min: Liu and others 2022.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.energy import (
    ACTIVITIES,
    OXYGEN_PER_MET_ML_PER_KG_MIN,
    Edition,
    EffortClass,
    classify_effort,
    find_kcal_per_min,
    find_met,
)
from builder.sums.validity import OutsideValidityError


@pytest.mark.parametrize(
    ("code", "met_2011", "met_2024"),
    [("07011", 1.3, 1.0), ("02101", 2.3, 2.3), ("02105", 3.0, 2.8), ("02024", 2.8, 2.8)],
)
def test_the_editions_are_kept_apart(code: str, met_2011: float, met_2024: float) -> None:
    assert find_met(code, Edition.OF_2011) == met_2011
    assert find_met(code, Edition.OF_2024) == met_2024


def test_an_edition_without_the_activity_is_refused() -> None:
    assert find_met("02103", Edition.OF_2024) == 1.8
    with pytest.raises(OutsideValidityError, match="02103 has no value in the Compendium 2011"):
        find_met("02103", Edition.OF_2011)
    with pytest.raises(OutsideValidityError, match="code 99999 is not among"):
        find_met("99999", Edition.OF_2024)


@pytest.mark.parametrize(("met", "kcal"), [(1.3, 15.93), (2.3, 28.18), (2.8, 34.30), (3.5, 42.88)])
def test_ten_minutes_at_seventy_kilograms_cost_what_the_usual_example_says(
    met: float, kcal: float
) -> None:
    assert 10 * find_kcal_per_min(met, 70) == pytest.approx(kcal, abs=0.01)


def test_one_met_of_seventy_kilograms_takes_245_millilitres_of_oxygen() -> None:
    assert OXYGEN_PER_MET_ML_PER_KG_MIN * 70 == 245


@pytest.mark.parametrize(
    ("met", "name"),
    [
        (1.59, EffortClass.REST),
        (1.6, EffortClass.LIGHT),
        (2.99, EffortClass.LIGHT),
        (3.0, EffortClass.MODERATE),
        (5.99, EffortClass.MODERATE),
        (6.0, EffortClass.VIGOROUS),
    ],
)
def test_classes_change_at_the_published_bounds(met: float, name: EffortClass) -> None:
    assert classify_effort(met) is name


@given(st.floats(0.8, 12), st.floats(0.8, 12), st.floats(30, 250))
def test_more_effort_costs_more(one: float, other: float, weight: float) -> None:
    low, high = sorted((one, other))
    assert find_kcal_per_min(low, weight) <= find_kcal_per_min(high, weight)


def test_the_listed_rows_have_an_edition() -> None:
    assert all(row.met_2011 or row.met_2024 for row in ACTIVITIES.values())
    assert {code for code in ACTIVITIES if len(code) != 5} == set()
