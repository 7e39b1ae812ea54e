import pytest
from hypothesis import given, settings

from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.score import score_plan
from builder.planning.class_plan.search import find_plan
from tests.planning.class_plan.problems import (
    make_large_problem,
    small_problems,
    try_every_plan,
)
from tests.trying import count_tries, is_thorough


@settings(max_examples=count_tries(60, 150))
@given(small_problems())
def test_the_plan_is_as_good_as_the_best_of_all_plans(problem: ClassProblem) -> None:
    found, best = find_plan(problem), try_every_plan(problem)
    if best is None:
        assert found is None
        return
    assert found is not None
    assert found.score.breaches == ()
    assert (found.score.points, found.bound) == (best[1].points, best[1].points)
    assert found.is_proven


@pytest.mark.parametrize("seed", [2, 4, 5, *((1, 8) if is_thorough() else ())])
def test_twelve_people_and_sixty_lessons_get_a_proven_plan(seed: int) -> None:
    problem = make_large_problem(seed)
    found = find_plan(problem)
    assert found is not None
    assert found.is_proven
    assert score_plan(problem, found.plan) == found.score
    assert found.score.breaches == ()
