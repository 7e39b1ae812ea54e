"""Ventilation against handbook values.

CO2 equation: West, Respiratory Physiology; ideal weight: Devine 1974 as in the ARDS Network's
tables; the table of needed breaths was worked out apart from this code from those equations.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.reference_body import LungReference, ReferenceBody
from builder.sums.validity import OutsideValidityError
from builder.sums.ventilation import (
    MMHG_LITRES,
    find_alveolar_l_per_min,
    find_dead_space_ml,
    find_ideal_weight_kg,
    find_needed_breath,
    find_rate_for_breath_per_min,
)
from tests.sums.bodies import MAN, WOMAN, bodies

MALE, FEMALE = LungReference.MALE, LungReference.FEMALE
efforts, rates = st.floats(0.8, 12), st.floats(0.25, 60)


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
def test_needed_breaths_are_those_of_the_worked_table(
    body: ReferenceBody, met: float, rate: float, tidal: float
) -> None:
    assert find_needed_breath(rate, met, body).tidal_ml == pytest.approx(tidal, abs=1)


@given(efforts, rates, st.floats(1.01, 2), bodies)
def test_a_slower_count_needs_a_bigger_breath(
    effort: float, rate: float, factor: float, body: ReferenceBody
) -> None:
    slow = max(0.25, rate / factor)
    first = find_needed_breath(rate, effort, body)
    assert find_needed_breath(slow, effort, body).tidal_ml >= first.tidal_ml


@given(efforts, efforts, rates, bodies)
def test_more_effort_needs_a_bigger_breath(
    one: float, other: float, rate: float, body: ReferenceBody
) -> None:
    low, high = sorted((one, other))
    first, second = (find_needed_breath(rate, met, body) for met in (low, high))
    assert first.tidal_ml <= second.tidal_ml


@given(efforts, rates, bodies)
def test_the_rate_of_a_breath_is_the_inverse_of_the_breath_of_a_rate(
    effort: float, rate: float, body: ReferenceBody
) -> None:
    tidal = find_needed_breath(rate, effort, body).tidal_ml
    if tidal < find_dead_space_ml(body.height_cm, body.lung_reference) + 1 or tidal > 20_000:
        with pytest.raises(OutsideValidityError):
            find_rate_for_breath_per_min(tidal, effort, body)
    else:
        assert find_rate_for_breath_per_min(tidal, effort, body) == pytest.approx(rate)


def test_a_breath_that_only_fills_the_airways_has_no_rate() -> None:
    with pytest.raises(OutsideValidityError, match="breath 100 mL is outside 126"):
        find_rate_for_breath_per_min(100, 1, WOMAN)


@pytest.mark.parametrize(
    ("rate", "met", "text"),
    [
        (6, 12.1, "effort 12.1 MET is outside 0.8 to 12 MET"),
        (6, 0.79, "effort 0.79 MET is outside 0.8 to 12 MET"),
        (0.24, 1, "rate 0.24 breaths a minute is outside 0.25 to 60"),
        (60.1, 1, "rate 60.1 breaths a minute is outside 0.25 to 60"),
    ],
)
def test_what_the_equations_were_not_made_for_is_refused(
    rate: float, met: float, text: str
) -> None:
    with pytest.raises(OutsideValidityError, match=text.replace(".", r"\.")):
        find_needed_breath(rate, met, MAN)


def test_heights_outside_the_range_have_no_ideal_weight() -> None:
    assert find_ideal_weight_kg(140, FEMALE) == pytest.approx(34.22, abs=0.01)
    with pytest.raises(OutsideValidityError, match=r"height 139\.9 cm is outside 140 to 220 cm"):
        find_ideal_weight_kg(139.9, FEMALE)


def test_the_result_says_what_is_published_and_what_is_ours() -> None:
    citations = find_needed_breath(6, 1, MAN).citations
    assert [citation.is_ours for citation in citations] == [False] * 4 + [True] * 3


@given(efforts, rates, bodies)
def test_a_breath_is_its_dead_space_and_a_part_of_what_reaches_the_air_sacs(
    effort: float, rate: float, body: ReferenceBody
) -> None:
    breath = find_needed_breath(rate, effort, body)
    assert breath.dead_space_ml == find_dead_space_ml(body.height_cm, body.lung_reference)
    reaching_ml = 1000 * breath.alveolar_l_per_min / rate
    assert breath.tidal_ml == pytest.approx(breath.dead_space_ml + reaching_ml)
