"""The search against trying every schedule, and against a judge that shares no code with it."""

from dataclasses import astuple, replace
from datetime import timedelta

import pytest
from hypothesis import given, settings

from builder.planning.weeks.improve import make_schedule
from builder.planning.weeks.problem import ClassDay, Step, StrandRule, Way, WeeksProblem, lift_rest
from builder.planning.weeks.schedule import follow
from builder.planning.weeks.search import Effort, can_reach, find_schedule
from tests.planning.weeks.problems import (
    FIRST,
    can_all_reach,
    find_best_worth,
    find_faults,
    make_large_problem,
    small_problems,
)
from tests.trying import count_tries

DAY = timedelta(days=1)


@settings(max_examples=count_tries(60, 150), deadline=None)
@given(small_problems())
def test_no_schedule_is_worth_more_than_the_one_found(problem: WeeksProblem) -> None:
    found = find_schedule(problem)
    assert find_faults(problem, found.schedule) == []
    assert astuple(found.schedule.worth) == find_best_worth(problem)
    assert found.is_proven
    assert found.bound == found.schedule.worth


@settings(max_examples=count_tries(40, 100), deadline=None)
@given(small_problems())
def test_whether_all_can_reach_the_aim_is_as_trying_all_says(problem: WeeksProblem) -> None:
    assert can_reach(problem, problem.people) == can_all_reach(problem, problem.people)


@settings(max_examples=count_tries(40, 100), deadline=None)
@given(small_problems())
def test_a_schedule_by_hands_means_keeps_every_rule(problem: WeeksProblem) -> None:
    assert find_faults(problem, make_schedule(problem, {})) == []


@pytest.mark.parametrize("seed", range(3))
def test_twelve_people_and_twenty_class_days_keep_every_rule(seed: int) -> None:
    problem = make_large_problem(seed)
    found = find_schedule(problem, Effort(seconds=600))  # on a slow machine too
    assert find_faults(problem, found.schedule) == []
    assert found.is_proven
    assert found.schedule.worth >= make_schedule(problem, {}).worth


def test_an_answer_that_the_engine_betters_and_gives_back_unbettered_is_not_taken() -> None:
    steps = tuple(Step(f"lesson-{number}", "checks", (), 1) for number in range(3))
    problem = WeeksProblem(
        days=(ClassDay(FIRST, 1, is_retest=True), ClassDay(FIRST + DAY, 1, is_retest=True)),
        places=1,
        strands=(StrandRule("checks", is_check=True, is_worked_on=False),),
        ways={"C1": Way((replace(steps[0], classes=2), steps[1])), "C2": Way(steps)},
    )
    assert astuple(find_schedule(problem).schedule.worth) == find_best_worth(problem) == (0, 3, 5)


def test_the_same_problem_gets_the_same_schedule() -> None:
    problem = make_large_problem(5, people=6, days=12)
    assert find_schedule(problem).schedule == find_schedule(problem).schedule


def test_a_search_without_steps_tells_what_might_be_better() -> None:
    problem = make_large_problem(1, people=8)
    quick, whole = find_schedule(problem, Effort(nodes=0)), find_schedule(problem)
    assert find_faults(problem, quick.schedule) == []
    assert quick.bound.reached >= whole.schedule.worth.reached


def test_work_without_a_day_between_would_be_quicker_and_is_not_done() -> None:
    problem = make_large_problem(2, people=3, days=10)
    daily = replace(
        problem,
        days=tuple(
            replace(day, day=problem.days[0].day.replace(day=1 + number), week=number // 7 + 1)
            for number, day in enumerate(problem.days)
        ),
        ways={"C1": replace(problem.ways["C01"], steps=(Step("brace-0", "brace", (), 2),))},
    )
    assert find_schedule(daily).schedule.reached["C1"] == 2
    assert find_schedule(lift_rest(daily)).schedule.reached["C1"] == 1


def test_nobody_works_in_a_strand_that_the_day_lacks() -> None:
    problem = make_large_problem(3, people=2, days=4)
    schedule = follow(problem, [()] * 4, {})
    assert all(turns == () for turns in schedule.turns.values())
    assert schedule.worth.lessons == 0
