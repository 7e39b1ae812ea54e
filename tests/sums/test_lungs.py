"""Lungs against tables and programs from elsewhere.

The medians and the lower limit of GLI-2021 (Hall and others 2021) and of GLI Global 2022
(Bowerman and others 2023) come from pyspiro, which was written by others; the first six rows were
worked out from the published workbooks as well. The ECSC equations of 1993 (Quanjer and others,
European Respiratory Journal 6 Suppl 16) are an older, independent set; their residual
coefficients for total capacity and resting volume are from memory.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyspiro import BOWERMAN_2022, GLI_2021

from builder.course.reference_body import LungReference, ReferenceBody
from builder.errors import InvalidValueError
from builder.sums.lungs import (
    predict_forced_vital_capacity_ml,
    predict_inspiratory_capacity,
    predict_vital_capacity,
)
from builder.sums.validity import OutsideValidityError
from tests.sums.bodies import MAN, OLDER, WOMAN

MALE, FEMALE = LungReference.MALE, LungReference.FEMALE
SEX_OF_PYSPIRO = {FEMALE: 0, MALE: 1}
references = st.sampled_from(LungReference)


def _body(reference: LungReference, age: float, height: float) -> ReferenceBody:
    return ReferenceBody("somebody", reference, age, height, 70)


@pytest.mark.parametrize(
    ("reference", "age", "height", "inspiratory", "vital", "forced"),
    [
        (MALE, 20, 180, 3.450, 5.333, 5.2000),
        (MALE, 30, 175, 3.660, 5.381, 4.8710),
        (MALE, 40, 175, 3.744, 5.370, 4.6986),
        (MALE, 50, 170, 3.469, 4.851, 4.1197),
        (MALE, 70, 170, 2.999, 4.146, 3.5890),
        (FEMALE, 20, 165, 2.404, 3.842, 3.6324),
        (FEMALE, 30, 165, 2.647, 4.098, 3.6839),
        (FEMALE, 40, 165, 2.670, 4.064, 3.5755),
        (FEMALE, 50, 160, 2.475, 3.592, 3.0974),
        (FEMALE, 70, 160, 2.150, 2.905, 2.6400),
    ],
)
def test_medians_are_those_of_the_published_tables(  # noqa: PLR0917  # a row of the table
    reference: LungReference,
    age: float,
    height: float,
    inspiratory: float,
    vital: float,
    forced: float,
) -> None:
    body = _body(reference, age, height)
    assert predict_inspiratory_capacity(body).median_ml == pytest.approx(1000 * inspiratory, abs=1)
    assert predict_vital_capacity(body).median_ml == pytest.approx(1000 * vital, abs=1)
    assert predict_forced_vital_capacity_ml(age, height, reference) == pytest.approx(
        1000 * forced, abs=1
    )


@settings(max_examples=60, deadline=None)
@given(references, st.floats(18, 80), st.floats(140, 200))
def test_static_volumes_are_those_of_another_program(
    reference: LungReference, age: float, height: float
) -> None:
    other, sex = GLI_2021(), SEX_OF_PYSPIRO[reference]
    body = _body(reference, age, height)
    for parameter, mine in (
        (GLI_2021.Parameters.IC, predict_inspiratory_capacity(body)),
        (GLI_2021.Parameters.VC, predict_vital_capacity(body)),
    ):
        _, median, _ = other.lms(sex, age, height, parameter, 3)
        assert mine.median_ml == pytest.approx(1000 * median, rel=5e-4)
        low = other.lln(sex, age, height, parameter=parameter, value=3)
        assert mine.low_ml == pytest.approx(1000 * low, rel=1e-3)


@settings(max_examples=60, deadline=None)
@given(references, st.floats(18, 95), st.floats(140, 200))
def test_forced_vital_capacity_is_that_of_another_program(
    reference: LungReference, age: float, height: float
) -> None:
    _, median, _ = BOWERMAN_2022().lms(
        SEX_OF_PYSPIRO[reference], age, height, parameter=BOWERMAN_2022.Parameters.FVC, value=3
    )
    mine = predict_forced_vital_capacity_ml(age, height, reference)
    assert mine == pytest.approx(1000 * median, rel=5e-4)


@pytest.mark.parametrize("age", [30, 40, 50])
@pytest.mark.parametrize("height", [160, 170, 180])
def test_inspiratory_capacity_is_near_the_older_equations(age: float, height: float) -> None:
    metres = height / 100
    man = (7.99 * metres - 7.08) - (2.34 * metres + 0.009 * age - 1.09)
    woman = (6.60 * metres - 5.79) - (2.24 * metres + 0.001 * age - 1.00)
    for reference, litres in ((MALE, man), (FEMALE, woman)):
        mine = predict_inspiratory_capacity(_body(reference, age, height)).median_ml
        assert mine == pytest.approx(1000 * litres, rel=0.2)


@given(references, st.floats(18, 80), st.floats(140, 219), st.floats(0.1, 1))
def test_taller_people_have_more_room(
    reference: LungReference, age: float, height: float, more: float
) -> None:
    for predict in (predict_inspiratory_capacity, predict_vital_capacity):
        short, tall = (predict(_body(reference, age, cm)) for cm in (height, height + more))
        assert short.median_ml < tall.median_ml
        assert short.low_ml < tall.low_ml


@pytest.mark.parametrize("body", [MAN, WOMAN, OLDER])
def test_what_is_breathed_in_is_a_part_of_the_whole_breath(body: ReferenceBody) -> None:
    share = predict_inspiratory_capacity(body).median_ml / predict_vital_capacity(body).median_ml
    assert 0.6 < share < 0.75
    assert predict_inspiratory_capacity(body).low_ml < predict_inspiratory_capacity(body).median_ml


@pytest.mark.parametrize(
    ("age", "height", "weight", "fact"),
    [
        (17.9, 170, 70, "age of 17.9 years is outside 18 to 80 years"),
        (80.1, 170, 70, "age of 80.1 years is outside 18 to 80 years"),
        (30, 139.9, 70, "height of 139.9 cm is outside 140 to 220 cm"),
        (30, 220.1, 70, "height of 220.1 cm is outside 140 to 220 cm"),
        (30, 170, 29.9, "weight of 29.9 kg is outside 30 to 250 kg"),
        (float("nan"), 170, 70, "age of nan years"),
    ],
)
def test_no_body_is_made_outside_the_range(
    age: float, height: float, weight: float, fact: str
) -> None:
    with pytest.raises(InvalidValueError, match=fact.replace(".", r"\.")):
        ReferenceBody("somebody", MALE, age, height, weight)


@pytest.mark.parametrize("age", [18, 80])
@pytest.mark.parametrize("height", [140, 220])
@pytest.mark.parametrize("reference", LungReference)
def test_the_ends_of_the_range_belong_to_it(
    age: float, height: float, reference: LungReference
) -> None:
    body = _body(reference, age, height)
    assert 1000 < predict_inspiratory_capacity(body).median_ml < 6000
    assert 1500 < predict_vital_capacity(body).median_ml < 9000


def test_forced_vital_capacity_is_refused_beyond_its_own_range() -> None:
    assert predict_forced_vital_capacity_ml(95, 160, FEMALE) > 1000
    with pytest.raises(OutsideValidityError, match=r"age 95\.1 years is outside 18 to 95 years"):
        predict_forced_vital_capacity_ml(95.1, 160, FEMALE)
