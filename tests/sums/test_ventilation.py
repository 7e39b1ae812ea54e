"""Ventilation against handbook values.

CO2 equation: West, Respiratory Physiology; ideal weight: Devine 1974 as in the ARDS Network's
tables; the table of needed breaths was worked out apart from this code from those equations.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.validity import OutsideValidityError
from builder.sums.ventilation import (
    MMHG_LITRES,
    LungReference,
    find_alveolar_l_per_min,
    find_dead_space_ml,
    find_ideal_weight_kg,
    find_needed_breath,
)

MALE, FEMALE = LungReference.MALE, LungReference.FEMALE
MAN = {"height_cm": 175, "weight_kg": 70, "reference": MALE}
WOMAN = {"height_cm": 165, "weight_kg": 60, "reference": FEMALE}
efforts, rates = st.floats(0.9, 8), st.floats(1, 60)


@pytest.mark.parametrize(
    ("height", "reference", "kg"),
    [(175, MALE, 70.57), (180, MALE, 75.12), (165, FEMALE, 56.97), (160, FEMALE, 52.42)],
)
def test_ideal_weight_is_devines(height: float, reference: LungReference, kg: float) -> None:
    assert find_ideal_weight_kg(height, reference) == pytest.approx(kg, abs=0.01)


def test_dead_space_is_radfords() -> None:
    assert find_dead_space_ml(175, MALE) == pytest.approx(155.2, abs=0.1)
    assert find_dead_space_ml(165, FEMALE) == pytest.approx(125.3, abs=0.1)


def test_the_factor_comes_from_the_gas_laws() -> None:
    assert pytest.approx(760 * (310 / 273) / 1000, abs=1e-4) == MMHG_LITRES


def test_two_hundred_millilitres_of_co2_need_the_handbooks_ventilation() -> None:
    assert find_alveolar_l_per_min(200) == pytest.approx(4.315)


@pytest.mark.parametrize(
    ("body", "met", "rate", "tidal"),
    [
        (MAN, 1.0, 12, 507),
        (MAN, 1.0, 3.75, 1283),
        (MAN, 1.8, 6, 1424),
        (MAN, 2.8, 3.75, 3312),
        (MAN, 3.8, 5, 3369),
        (WOMAN, 1.0, 6, 729),
        (WOMAN, 1.3, 3.75, 1382),
        (WOMAN, 2.8, 3.75, 2831),
        (WOMAN, 3.8, 5, 2880),
    ],
)
def test_needed_breaths_are_those_of_the_worked_table(body, met, rate, tidal) -> None:
    needed = find_needed_breath(rate, effort_met=met, **body)
    assert needed.tidal_ml == pytest.approx(tidal, abs=1)


@given(efforts, rates, st.floats(1.01, 2))
def test_a_slower_count_needs_a_bigger_breath(effort: float, rate: float, factor: float) -> None:
    slow = max(1.0, rate / factor)
    first = find_needed_breath(rate, effort_met=effort, **WOMAN)
    assert find_needed_breath(slow, effort_met=effort, **WOMAN).tidal_ml >= first.tidal_ml


@given(efforts, efforts, rates)
def test_more_effort_needs_a_bigger_breath(one: float, other: float, rate: float) -> None:
    low, high = sorted((one, other))
    first, second = (find_needed_breath(rate, effort_met=met, **MAN) for met in (low, high))
    assert first.tidal_ml <= second.tidal_ml


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({"height_cm": 152.3}, "height 152.3 cm is outside 152.4 to 220 cm"),
        ({"weight_kg": 29}, "weight 29 kg is outside 30 to 250 kg"),
        ({"effort_met": 8.1}, "effort 8.1 MET is outside 0.9 to 8 MET"),
        ({"rate_per_min": 0.5}, "rate 0.5 breaths a minute is outside 1 to 60"),
    ],
)
def test_what_the_equations_were_not_made_for_is_refused(change, text: str) -> None:
    inputs = {"rate_per_min": 6, "effort_met": 1.0, **MAN, **change}
    with pytest.raises(OutsideValidityError, match=text.replace(".", r"\.")):
        find_needed_breath(**inputs)


def test_the_result_says_what_is_published_and_what_is_ours() -> None:
    citations = find_needed_breath(6, effort_met=1.0, **MAN).citations
    assert [citation.is_ours for citation in citations] == [False, False, False, True]
