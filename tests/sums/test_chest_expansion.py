"""Chest expansion: scatter of 0.6 cm (Bockenhauer and others 2007), 2.5 cm (New York 1966)."""

import pytest

from builder.sums.chest_expansion import compare_expansions, measure_expansion_cm
from builder.sums.validity import OutsideValidityError


def test_it_is_the_difference_of_two_girths() -> None:
    assert measure_expansion_cm(84.0, 90.4) == pytest.approx(6.4)
    assert measure_expansion_cm(84.0, 84.0) == 0


@pytest.mark.parametrize(
    ("later", "is_change"), [(4.59, False), (4.60, True), (3.41, False), (3.40, True)]
)
def test_a_change_begins_at_six_millimetres(later: float, is_change: bool) -> None:
    compared = compare_expansions(4.0, later)
    assert compared.change_cm == pytest.approx(later - 4.0)
    assert compared.is_change is is_change


@pytest.mark.parametrize(
    ("earlier", "later", "asks"), [(2.5, 2.5, True), (2.5, 2.51, False), (2.6, 2.0, False)]
)
def test_only_two_low_readings_ask_for_a_clinician(earlier, later, asks) -> None:
    assert compare_expansions(earlier, later).asks_for_clinician is asks


def test_readings_that_were_changed_over_are_refused() -> None:
    with pytest.raises(OutsideValidityError, match="changed over"):
        measure_expansion_cm(90, 84)


@pytest.mark.parametrize("girth", [39.9, 200.1])
def test_a_girth_that_no_chest_has_is_refused_with_the_range(girth: float) -> None:
    with pytest.raises(OutsideValidityError, match="outside 40 to 200 cm"):
        measure_expansion_cm(girth, 100)


@pytest.mark.parametrize("pair", [(-5, -5), (2.5, float("nan")), (float("nan"), 2.5), (31, 3)])
def test_what_no_tape_shows_is_refused(pair: tuple[float, float]) -> None:
    with pytest.raises(OutsideValidityError, match="is outside 0 to 30 cm"):
        compare_expansions(*pair)
