"""Ladder: rungs of at most 10 % (Ratamess and others 2009 for loads; ours for breath)."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.reference_body import ReferenceBody
from builder.course.tempo import PAUSE_SECONDS, Tempo
from builder.sums.air import BreathSize, find_air_share, find_longest_cycle_seconds
from builder.sums.ladder import Ladder, climb_to
from builder.sums.validity import OutsideValidityError
from tests.sums.bodies import MAN, OLDER, WOMAN, bodies

wholes = st.integers(2, 8).map(float)
holds = st.sampled_from([0.0, 1.0, 2.0, 3.0, 4.0, 6.0])
targets = st.builds(Tempo, wholes, holds, wholes, holds)
SHORTEST_BOX_STEP = 8
"""A box of 2 s a side; the next box down is as short as a ladder may get."""
cycles, trials = st.floats(5, 25), st.one_of(st.none(), st.floats(0.5, 60))


def _climb(target: str, cycle: float, body: ReferenceBody, hold: float | None = None) -> Ladder:
    return climb_to(
        Tempo.parse(target), cycle, effort_met=1.3, bodies=[body], comfortable_hold_seconds=hold
    )


def test_a_long_exhale_is_reached_by_half_seconds() -> None:
    ladder = _climb("4-1-6-1", 9, MAN)
    assert [str(rung) for rung in ladder.rungs] == ["3-1-4-1", "3-1-4.5-1", "3-1-5-1", *LAST]
    assert ladder.reaches_target
    assert ladder.held_back_by == ()


LAST = ["3.5-1-5.5-1", "4-1-6-1"]


def test_the_air_check_caps_the_last_rung() -> None:
    ladder = _climb("4-4-4-4", 8, WOMAN, hold=30)
    assert str(ladder.rungs[-1]) == "3-3-3-3"
    assert [rule.key for rule in ladder.held_back_by] == ["air-limits"]
    assert not ladder.reaches_target
    assert _climb("4-4-4-4", 8, MAN, hold=30).reaches_target


def test_half_of_the_comfortable_hold_caps_the_holds() -> None:
    ladder = _climb("4-4-4-4", 8, MAN, hold=6)
    assert str(ladder.rungs[-1]) == "4-3-4-3"
    assert [rule.key for rule in ladder.held_back_by] == ["half-hold"]


def test_without_a_measured_hold_only_pauses_are_kept() -> None:
    ladder = _climb("4-4-4-4", 8, MAN)
    assert str(ladder.rungs[-1]) == "4-1-4-1"
    assert [rule.key for rule in ladder.held_back_by] == ["no-hold"]


@pytest.mark.parametrize("target", ["2-2-8-2", "2-2-10-2", "2-1-10-1"])
def test_the_first_rung_is_within_the_easy_breath_whatever_the_shape(target: str) -> None:
    assert _climb(target, 5, MAN, hold=10).rungs[0].cycle_seconds == 5


@pytest.mark.parametrize(
    ("target", "cycle", "first"),
    [
        # Phases shrink alike, pauses apart, to half seconds; worked by hand.
        ("2-1-8-4", 13.3, "1.5-1-7-3.5"),  # x 12.3/14: 1.76, 7.03, 3.51
        ("2-0-6-1", 6, "1.5-0-3.5-1"),  # x 5/8: 1.25, 3.75; the inhale lacks the larger share
        ("2-0-2-4", 5, "1-0-1.5-2.5"),  # x 5/8: 1.25, 1.25, 2.5; of equals the exhale grows first
        ("6-2-4-1", 5, "2-1-1-1"),  # x 4/12: 2, 0.67, 1.33; a hold stays a pause at least
        ("5-2-5-2", 5, "1.5-1-1.5-1"),  # x 5/14: 1.79, 0.71; holds again, so the longest give
    ],
)
def test_the_first_rung_has_the_shape_of_the_target(target: str, cycle: float, first: str) -> None:
    assert str(_climb(target, cycle, MAN, hold=30).rungs[0]) == first


def test_a_very_short_hold_shortens_pauses_too() -> None:
    assert str(_climb("4-1-4-1", 8, MAN, hold=1).rungs[-1]) == "4-0.5-4-0.5"
    assert str(_climb("4-1-4-1", 8, MAN, hold=0.5).rungs[-1]) == "4-0-4-0"


def test_the_result_names_whose_numbers_end_it() -> None:
    keys = {citation.key for citation in _climb("4-4-4-4", 8, WOMAN, hold=30).citations}
    assert {"ratamess-2009", "gli-2021", "co2-equation", "air-limits", "half-hold"} <= keys


def test_who_is_there_already_has_one_rung() -> None:
    assert [str(rung) for rung in _climb("4-1-4-1", 12, MAN).rungs] == ["4-1-4-1"]


@given(targets, cycles, st.floats(1, 1.8), bodies, trials)
def test_no_rung_grows_by_more_than_a_tenth_or_passes_a_cap(
    target: Tempo, cycle: float, effort: float, body: ReferenceBody, hold: float | None
) -> None:
    try:
        ladder = climb_to(
            target, cycle, effort_met=effort, bodies=[body], comfortable_hold_seconds=hold
        )
    except OutsideValidityError:
        assert find_longest_cycle_seconds(effort, body) < SHORTEST_BOX_STEP
        return
    assert ladder.rungs[0].cycle_seconds <= cycle + 1e-9
    for before, rung in pairwise(ladder.rungs):
        assert before.cycle_seconds < rung.cycle_seconds <= before.cycle_seconds * 1.1 + 1e-9
        steps = zip(before.phases, rung.phases, strict=True)
        assert all(now >= then for then, now in steps)
    last = ladder.rungs[-1]
    assert find_air_share(last.cycle_seconds, effort, body).size is BreathSize.EASY
    assert last.longest_hold_seconds <= (PAUSE_SECONDS if hold is None else hold / 2)
    assert ladder.reaches_target == (not ladder.held_back_by)


@pytest.mark.parametrize("cycle", [4.9, 60.1])
def test_a_cycle_outside_the_range_is_refused(cycle: float) -> None:
    with pytest.raises(OutsideValidityError, match=r"easy breath .* is outside 5 to 60 s"):
        _climb("4-1-4-1", cycle, MAN)


def test_an_effort_at_which_no_count_is_slow_enough_is_refused() -> None:
    with pytest.raises(OutsideValidityError, match="no count like 4-1-4-1"):
        climb_to(Tempo.parse("4-1-4-1"), 8, effort_met=9, bodies=[OLDER])
