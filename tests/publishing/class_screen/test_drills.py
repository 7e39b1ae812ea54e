"""Drills of a block: sets and rests where all share them, else a count until the block is over."""

from dataclasses import replace

import pytest

from builder.course.dose import Dose, TimedDose
from builder.publishing.class_screen.drills import count_breaths, describe_drill
from tests.publishing.class_screen.views import COUNT, make_block, make_turn


def test_sets_and_rests_are_told_where_all_share_them() -> None:
    block = make_block(2, 3, 60, make_turn("C5", "even-count"), make_turn("C6", "even-count"))
    assert describe_drill(block) == {
        "tempo": [4, 1, 4, 1],
        "sets": 2,
        "breaths": 6,
        "rest": 30,
        "sides": "together",
        "minutes": 0,
    }


@pytest.mark.parametrize(
    "other",
    [
        make_turn("C6", "even-count", dose=Dose(2, 5, 30), seconds=130),
        make_turn("C6", "even-count", dose=Dose(2, 6, 45), rest_seconds=45, seconds=165),
        make_turn("C6", "even-count", seconds=240),
        make_turn("C6", "belly-breath"),
    ],
    ids=["other breaths", "a longer rest", "one set more", "at their own pace"],
)
def test_where_one_differs_the_count_goes_on_and_cuts_nobody_short(other: object) -> None:
    block = make_block(2, 4, 0, make_turn("C5", "even-count"))
    drill = describe_drill(replace(block, turns=(*block.turns, other)))  # type: ignore[arg-type]
    assert (drill["sets"], drill["breaths"], drill["rest"]) == (1, 24, 0)


def test_a_count_ends_after_a_whole_breath_and_not_before_the_block() -> None:
    block = make_block(2, 1, 0, make_turn("C5", "even-count"), make_turn("C6", "belly-breath"))
    drill = describe_drill(replace(block, tempo=replace(COUNT, exhale=6.5)))
    assert drill["breaths"] == 5  # of 12.5 s


def test_at_ones_own_pace_minutes_count() -> None:
    assert describe_drill(make_block(1, 2, 0, make_turn("C5", "belly-breath")))["minutes"] == 2


def test_breaths_are_those_of_all_sets_and_of_both_sides() -> None:
    assert count_breaths(make_turn("C5", "even-count")) == 12
    each = make_turn("C5", "side-lying-rotation-hold")
    assert count_breaths(each) == 12
    one_more = each.seconds + 3 * 10 + 30
    assert count_breaths(replace(each, seconds=one_more)) == 15
    assert count_breaths(replace(each, dose=TimedDose(3))) is None
