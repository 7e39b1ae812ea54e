"""Air: shares of capacity against a table worked out apart from this code.

The table takes the equations of West, Devine 1974 and Radford 1955 with the inspiratory capacity
of GLI-2021 (Hall and others): a man of 30 years, 175 cm, 70 kg and a woman of 30 years, 165 cm,
60 kg. The limits of 50 and 100 % are ours.
"""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.course.reference_body import LungReference, ReferenceBody
from builder.sums.air import (
    BIG_SHARE,
    TOO_BIG_SHARE,
    BreathSize,
    find_air_share,
    find_longest_cycle_seconds,
)
from builder.sums.validity import OutsideValidityError
from tests.sums.bodies import MAN, WOMAN, bodies

efforts, cycles = st.floats(0.8, 4), st.floats(3, 30)


@pytest.mark.parametrize(
    ("body", "met", "rate", "percent"),
    [
        *[(MAN, 1.0, rate, share) for rate, share in ((12, 14), (6, 24), (5, 27), (3.75, 35))],
        *[(MAN, 1.3, rate, share) for rate, share in ((12, 17), (6, 29), (5, 34), (3.75, 44))],
        *[(MAN, 1.8, rate, share) for rate, share in ((12, 22), (6, 39), (5, 46), (3.75, 60))],
        *[(MAN, 2.3, rate, share) for rate, share in ((12, 26), (6, 49), (5, 57), (3.75, 75))],
        *[(MAN, 2.8, rate, share) for rate, share in ((12, 31), (6, 58), (5, 69), (3.75, 91))],
        *[(MAN, 3.8, rate, share) for rate, share in ((12, 41), (6, 77), (5, 92), (3.75, 121))],
        *[(WOMAN, 1.0, rate, share) for rate, share in ((6, 28), (5, 32), (3.75, 41))],
        *[(WOMAN, 1.3, rate, share) for rate, share in ((6, 34), (5, 40), (3.75, 52))],
        *[(WOMAN, 1.8, rate, share) for rate, share in ((6, 46), (5, 54), (3.75, 70))],
        *[(WOMAN, 2.3, rate, share) for rate, share in ((6, 57), (5, 68), (3.75, 89))],
        *[(WOMAN, 2.8, rate, share) for rate, share in ((6, 69), (5, 81), (3.75, 107))],
        *[(WOMAN, 3.8, rate, share) for rate, share in ((6, 91), (5, 109), (3.75, 144))],
    ],
)
def test_shares_are_those_of_the_worked_table(
    body: ReferenceBody, met: float, rate: float, percent: int
) -> None:
    share = find_air_share(60 / rate, met, body).share
    assert 100 * share == pytest.approx(percent, abs=0.6)  # the table rounds twice


@pytest.mark.parametrize(
    ("body", "met", "rate", "size"),
    [
        (MAN, 2.3, 6, BreathSize.EASY),
        (MAN, 2.3, 5, BreathSize.BIG),
        (MAN, 2.8, 3.75, BreathSize.BIG),
        (WOMAN, 2.8, 3.75, BreathSize.TOO_BIG),
        (WOMAN, 1.0, 3.75, BreathSize.EASY),
    ],
)
def test_sizes_follow_the_shares(
    body: ReferenceBody, met: float, rate: float, size: BreathSize
) -> None:
    assert find_air_share(60 / rate, met, body).size is size


@pytest.mark.parametrize(
    ("share", "under", "at"),
    [
        (BIG_SHARE, BreathSize.EASY, BreathSize.BIG),
        (TOO_BIG_SHARE, BreathSize.BIG, BreathSize.TOO_BIG),
    ],
)
def test_the_limits_belong_to_the_bigger_size(
    share: float, under: BreathSize, at: BreathSize
) -> None:
    cycle = find_longest_cycle_seconds(1.8, WOMAN, share)
    assert find_air_share(cycle - 0.01, 1.8, WOMAN).size is under
    assert find_air_share(cycle, 1.8, WOMAN).size is at


@given(efforts, cycles, bodies)
def test_the_longest_cycle_is_the_inverse_of_the_share(
    effort: float, cycle: float, body: ReferenceBody
) -> None:
    share = find_air_share(cycle, effort, body).share
    assume(share < 3)
    assert find_longest_cycle_seconds(effort, body, share) == pytest.approx(cycle)


@given(efforts, cycles, st.floats(0.1, 5), bodies)
def test_a_longer_breath_takes_a_bigger_share(
    effort: float, cycle: float, more: float, body: ReferenceBody
) -> None:
    short, long = (find_air_share(seconds, effort, body) for seconds in (cycle, cycle + more))
    assert short.share < long.share


@given(efforts, cycles, st.floats(18, 80), st.floats(150, 200), st.floats(40, 120))
def test_heavier_bodies_of_one_height_need_a_bigger_share(
    effort: float, cycle: float, age: float, height: float, weight: float
) -> None:
    light, heavy = (
        ReferenceBody("somebody", LungReference.FEMALE, age, height, kg)
        for kg in (weight, weight + 5)
    )
    first, second = (find_air_share(cycle, effort, body).share for body in (light, heavy))
    assert first < second


def test_a_share_that_does_not_fill_the_airways_has_no_cycle() -> None:
    with pytest.raises(OutsideValidityError, match="breath"):
        find_longest_cycle_seconds(1.3, WOMAN, share=0.01)


@pytest.mark.parametrize("cycle", [0, -4, 0.9, 241, float("nan")])
def test_a_breath_of_no_length_is_refused(cycle: float) -> None:
    with pytest.raises(OutsideValidityError, match="is outside 1 to 240 s"):
        find_air_share(cycle, 1.3, WOMAN)


def test_the_result_names_its_sources_and_what_is_ours() -> None:
    keys = {citation.key for citation in find_air_share(10, 1.3, MAN).citations}
    assert {"gli-2021", "devine-1974", "radford-1955", "co2-equation", "liu-2022"} <= keys
    ours = {c.key for c in find_air_share(10, 1.3, MAN).citations if c.is_ours}
    assert ours == {
        *("air-limits", "short-sets", "steady-state", "short-bodies", "grown-ups", "every-age"),
    }
