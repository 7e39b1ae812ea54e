"""Demand: the ranks, and how much may rise at once."""

import pytest

from builder.checks.demand import find_hold_with_new_demand, find_steep_demand
from builder.course.demand import AXES, Demand, hardest, measure_demand
from builder.course.lesson import Limb, Range
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort, Position, Prop, PropUse

SITTING = Position("sitting", "sitting", "", 1)
ALL_FOURS = Position("all-fours", "on all fours", "quadruped", 3)
BAND = PropUse(Prop("band", "band", "tights", load=2), 1)


def ids(findings):
    return [finding.rule.id for finding in findings]


# Our own scale, agreed for this course; the bounds are where ranks change.
@pytest.mark.parametrize(
    ("tempo", "tempo_rank", "hold_rank"),
    [
        ("4-1-4-1", 1, 0),
        ("4-1-4-1.5", 2, 1),
        ("4-2-4-2", 2, 1),
        ("4-0-9-0", 3, 0),
        ("3-3-3-3", 2, 1),
        ("4-4-4-4", 3, 2),
        ("4-4.5-4-4", 4, 3),
        ("5-6.5-5-0", 4, 4),
    ],
)
def test_tempo_and_hold_rise_at_their_bounds(
    small_course, change_lesson, tempo, tempo_rank, hold_rank
):
    drill = change_lesson(tempo=Tempo.parse(tempo)).by_id["plain-count"].drill
    demand = measure_demand(drill)
    assert (demand.tempo, demand.hold) == (tempo_rank, hold_rank)


def test_own_pace_asks_nothing_of_tempo(small_course):
    assert small_course.demands["wide-ribs"] == Demand()


def test_load_is_the_highest_of_prop_effort_and_trait(change_lesson):
    def load(**parts):
        return measure_demand(change_lesson(**parts).by_id["plain-count"].drill).load

    assert load() == 0
    assert load(props=(BAND,)) == 2
    assert load(effort=Effort("hard", 4, "Compendium 2024", "02105", 3), props=(BAND,)) == 3
    assert load(named_traits=frozenset({"bracing"})) == 1


def test_rotation_takes_the_rank_of_the_range(change_lesson):
    course = change_lesson(
        moving=(Limb.TRUNK,), range=Range.HALF, named_traits=frozenset({"trunk-rotation"})
    )
    demand = course.demands["plain-count"]
    assert (demand.rotation, demand.range, demand.limbs) == (2, 2, 0)


def test_the_hardest_of_several_is_taken_axis_by_axis():
    assert hardest([Demand(position=2), Demand(hold=1, position=1)]) == Demand(position=2, hold=1)
    assert hardest([]) == Demand()


def test_two_demands_may_rise_and_three_may_not(change_lesson):
    moving = (Limb.LEFT_ARM, Limb.RIGHT_ARM)
    two = change_lesson("long-out", moving=moving, at_once=1, tempo=Tempo.parse("4-1-4-1"))
    assert ids(find_steep_demand(two)) == []
    two = change_lesson(
        "long-out", moving=moving, at_once=1, range=Range.SMALL, tempo=Tempo.parse("4-1-4-1")
    )
    assert ids(find_steep_demand(two)) == []
    three = change_lesson("long-out", two, position=SITTING)
    assert ids(find_steep_demand(three)) == ["D101"]


def test_a_jump_shows_both_rows_under_the_axes(change_lesson):
    (found,) = find_steep_demand(change_lesson("long-out", position=ALL_FOURS))
    head, before, now = (row.split() for row in found.details)
    assert found.fact == "position rises by 3 ranks"
    assert tuple(head) == AXES
    assert before == ["before", *"01000000"]
    assert now == ["long-out", *"32000000"]


def test_a_first_lesson_has_nothing_to_rise_over(change_lesson):
    course = change_lesson("hand-on-belly", position=ALL_FOURS, tempo=Tempo.parse("4-4-4-4"))
    assert "hand-on-belly" not in {
        finding.place.path.rpartition("/")[2].removesuffix(".md")
        for finding in find_steep_demand(course)
    }


def test_a_hold_comes_alone(change_lesson):
    assert ids(find_hold_with_new_demand(change_lesson("short-hold"))) == []
    sitting = change_lesson("short-hold", position=SITTING)
    assert [finding.fact for finding in find_hold_with_new_demand(sitting)] == [
        "a new hold comes together with a new position"
    ]
    moving = change_lesson("short-hold", moving=(Limb.LEFT_ARM,), at_once=1, position=SITTING)
    assert [finding.fact for finding in find_hold_with_new_demand(moving)] == [
        "a new hold comes together with a new position and more moving limbs"
    ]
