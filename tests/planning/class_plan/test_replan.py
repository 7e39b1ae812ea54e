from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings

from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.replan import replan
from builder.planning.class_plan.score import score_plan
from builder.planning.class_plan.search import find_plan
from tests.planning.class_plan.problems import make_large_problem, small_problems
from tests.trying import count_tries


def without(problem: ClassProblem, person: str) -> ClassProblem:
    people = tuple(each for each in problem.people if each != person)
    return replace(
        problem, people=people, versions={each: problem.versions[each] for each in people}
    )


@settings(max_examples=count_tries(60, 200))
@given(small_problems())
def test_nobody_new_means_the_same_plan_or_one_as_good(problem: ClassProblem) -> None:
    found = find_plan(problem)
    assume(found is not None)
    assert found is not None
    again = replan(problem, found.plan)
    assert again is not None
    assert again.score.points == found.score.points


@settings(max_examples=count_tries(60, 200), suppress_health_check=[HealthCheck.filter_too_much])
@given(small_problems())
def test_who_comes_to_the_door_is_planned_in_without_a_breach(problem: ClassProblem) -> None:
    assume(len(problem.people) == 2)
    before = find_plan(without(problem, "C2"))
    assume(before is not None)
    assert before is not None
    after = replan(problem, before.plan)
    if after is not None:
        assert score_plan(problem, after.plan).breaches == ()
        frames = [(block.count, block.family) for block in after.plan.blocks]
        assert frames == [(block.count, block.family) for block in before.plan.blocks]


@pytest.mark.parametrize("seed", range(4))
def test_those_who_stay_keep_most_of_their_lessons(seed: int) -> None:
    problem = make_large_problem(seed, people=8, lessons=30)
    found = find_plan(problem)
    assert found is not None
    after = replan(without(problem, "C03"), found.plan)
    assert after is not None
    assert after.score.breaches == ()
    kept = [
        turn in block.turns
        for block, old in zip(after.plan.blocks, found.plan.blocks, strict=True)
        for turn in old.turns
        if turn.person_id != "C03"
    ]
    assert sum(kept) > len(kept) / 2
