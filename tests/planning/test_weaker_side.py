"""The weaker side: by index, by gap, by which side moves first; what it changes in a lesson."""

from dataclasses import replace

import pytest

from builder.course.vocabulary import Better, Measure
from builder.planning.weaker_side import (
    SideComparison,
    SidePlan,
    compare_person_sides,
    find_weaker_side,
    plan_sides,
)
from builder.records.result import Result, Side
from tests.planning.rows import on
from tests.planning.starter import make_result, read_starter

TURN = "side-lying-rotation-hold"


def read_reach(side: Side, value: float, day: int = 0) -> Result:
    return Result(on(day), "ro-1", "reach-cm", side, value, "cm", TURN)


@pytest.mark.parametrize(
    ("left", "right", "weaker", "difference"),
    [(15, 9, Side.LEFT, 6), (0, 3, Side.RIGHT, 3), (0, 0, None, 0), (12, 10, None, 2)],
)
def test_the_larger_gap_is_the_weaker_side_beyond_scatter(
    left: float, right: float, weaker: Side | None, difference: float
) -> None:
    rows = [read_reach(Side.LEFT, left), read_reach(Side.RIGHT, right)]
    (found,) = compare_person_sides(read_starter(), rows)
    assert (found.weaker, found.difference, found.index_percent) == (weaker, difference, None)
    assert all(citation.is_ours for citation in found.citations)


def test_the_newest_day_with_both_sides_counts() -> None:
    rows = [read_reach(Side.LEFT, 15), read_reach(Side.RIGHT, 9)]
    rows += [read_reach(Side.LEFT, 8, day=14), read_reach(Side.RIGHT, 9, day=14)]
    rows += [read_reach(Side.RIGHT, 20, day=28)]
    (found,) = compare_person_sides(read_starter(), rows)
    assert (found.day, found.weaker) == (on(14), None)


@pytest.mark.parametrize(
    ("word", "weaker"), [("left first", Side.RIGHT), ("right first", Side.LEFT), ("even", None)]
)
def test_the_side_that_comes_second_is_the_weaker_one(word: str, weaker: Side | None) -> None:
    (found,) = compare_person_sides(read_starter(), [make_result("rib-sides", word)])
    assert (found.weaker, found.word, found.lesson_id) == (weaker, word, "rib-sides-check")


def compare_press(better: Better) -> tuple[SideComparison, ...]:
    """Compare 8 kg on the left with 10 kg on the right."""
    course = read_starter()
    measure = Measure("press", "press", "kg", has_sides=True, better=better)
    words = replace(course.vocabulary, measures={"press": measure})
    kilos = {Side.LEFT: 8, Side.RIGHT: 10}
    rows = [Result(on(0), "ro-1", "press", side, value) for side, value in kilos.items()]
    return compare_person_sides(replace(course, vocabulary=words), rows)


@pytest.mark.parametrize("better", [Better.LESS, Better.NONE])
def test_sides_that_no_rule_compares_are_not_compared(better: Better) -> None:
    assert compare_press(better) == ()


def test_where_more_is_better_the_index_is_that_of_the_published_formula() -> None:
    """Smaller over larger: 8 of 10 is 80 %, and even from 90 % (Markström and others 2022)."""
    (found,) = compare_press(Better.MORE)
    assert (found.index_percent, found.weaker) == (pytest.approx(80), Side.LEFT)


def test_the_weaker_side_starts_and_gets_one_set_more() -> None:
    by_id = read_starter().by_id
    assert plan_sides(by_id[TURN], Side.LEFT) == SidePlan(Side.LEFT, 3, 2)
    assert plan_sides(by_id[TURN], None) is None
    assert plan_sides(by_id["even-count"], Side.LEFT) is None


def test_what_was_read_in_the_lesson_outweighs_other_measures() -> None:
    course = read_starter()
    rows = [read_reach(Side.LEFT, 15), read_reach(Side.RIGHT, 9)]
    found = compare_person_sides(course, [*rows, make_result("rib-sides", "left first", day=on(0))])
    assert find_weaker_side(course, course.by_id[TURN], found) is Side.LEFT
    assert find_weaker_side(course, course.by_id["rib-sides-check"], found) is Side.RIGHT
    assert find_weaker_side(course, course.by_id["one-limb"], found) is None
    assert find_weaker_side(course, course.by_id["one-limb"], found[1:]) is Side.LEFT
