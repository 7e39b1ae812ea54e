"""What an explanation names is changed, and the result changes; checked by trying all."""

from dataclasses import replace

from hypothesis import given, settings

from builder.planning.weeks.explain import Cause, Shortfall, explain_shortfalls
from builder.planning.weeks.problem import (
    Hindered,
    Hindrance,
    Step,
    Way,
    WeeksProblem,
    add_places,
    add_weeks,
    keep_people,
    lift_rest,
)
from builder.planning.weeks.schedule import Turn
from builder.planning.weeks.search import find_schedule
from tests.planning.weeks.problems import can_all_reach, make_large_problem, small_problems
from tests.trying import count_tries


def explain(problem: WeeksProblem) -> tuple[tuple[str, ...], tuple[Shortfall, ...]]:
    schedule = find_schedule(problem).schedule
    return tuple(schedule.reached), explain_shortfalls(problem, schedule)


@settings(max_examples=count_tries(25, 80), deadline=None)
@given(small_problems(most_days=3, more=2))
def test_so_many_weeks_more_are_enough_and_one_less_is_not(problem: WeeksProblem) -> None:
    reached, shortfalls = explain(problem)
    for each in shortfalls:
        together = (*reached, each.person_id)
        assert each.is_fewest
        if each.more_weeks is None:
            assert not can_all_reach(add_weeks(problem, 26), together)
        else:
            assert can_all_reach(add_weeks(problem, each.more_weeks), together)
            assert not can_all_reach(add_weeks(problem, each.more_weeks - 1), together)


@settings(max_examples=count_tries(25, 80), deadline=None)
@given(small_problems(most_days=3))
def test_so_much_room_more_is_enough_and_less_is_not(problem: WeeksProblem) -> None:
    reached, shortfalls = explain(problem)
    for each in shortfalls:
        together = (*reached, each.person_id)
        if each.more_places is None:
            assert not can_all_reach(add_places(problem, 2), together)
        else:
            assert can_all_reach(add_places(problem, each.more_places), together)
            assert not can_all_reach(add_places(problem, each.more_places - 1), together)


@settings(max_examples=count_tries(40, 100), deadline=None)
@given(small_problems())
def test_with_its_cause_gone_the_aim_is_reached_and_with_it_not(problem: WeeksProblem) -> None:
    _, shortfalls = explain(problem)
    for each in shortfalls:
        alone = keep_people(problem, (each.person_id,))
        with_rest = can_all_reach(alone, (each.person_id,))
        without_rest = can_all_reach(lift_rest(alone), (each.person_id,))
        assert (with_rest, without_rest) == {
            Cause.OTHERS: (True, True),
            Cause.REST_DAYS: (False, True),
            Cause.TOO_FEW_CLASSES: (False, False),
        }[each.cause]


@settings(max_examples=count_tries(25, 80), deadline=None)
@given(small_problems())
def test_what_is_missing_is_what_the_way_takes_beyond_what_was_done(problem: WeeksProblem) -> None:
    schedule = find_schedule(problem).schedule
    for each in explain_shortfalls(problem, schedule):
        turns, way = schedule.turns[each.person_id], problem.ways[each.person_id]
        for strand in {step.strand_id for step in way.steps}:
            needed = sum(step.classes for step in way.steps if step.strand_id == strand)
            done = sum(turn.strand_id == strand for turn in turns)
            assert each.missing.get(strand, 0) == needed - done


def test_who_is_barred_on_the_way_goes_as_far_as_they_may_and_never_reaches_it() -> None:
    problem = make_large_problem(4, people=1, days=20)
    steps = (Step("one", "breath", (), 2), Step("two", "breath", ("one",), 2))
    ground = Hindered("two", "breath", Hindrance.BARRED)
    barred = replace(problem, ways={"C1": Way(steps[:1], (ground,))})
    schedule = find_schedule(barred).schedule
    assert schedule.turns["C1"] == (Turn(0, "breath", "one"), Turn(1, "breath", "one"))
    (shortfall,) = explain_shortfalls(barred, schedule)
    assert (shortfall.cause, shortfall.hindered) == (Cause.HINDERED, (ground,))
    freed = replace(problem, ways={"C1": Way(steps)})
    assert find_schedule(freed).schedule.reached == {"C1": 3}
