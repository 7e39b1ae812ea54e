from dataclasses import replace
from itertools import product

from hypothesis import given, settings

from builder.planning.class_plan import worth
from builder.planning.class_plan.changes import Change, apply_change, find_smallest_change
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.search import find_plan
from tests.planning.class_plan.problems import small_problems
from tests.trying import count_tries


def weigh(change: Change) -> int:
    return -(
        change.minutes * worth.MINUTE_MORE
        + change.coaches * worth.COACH_MORE
        + change.news * worth.NEW_MORE
        + sum(change.props.values()) * worth.PROP_MORE
        + len(change.left_out) * worth.PERSON_LESS
    )


def is_enough(problem: ClassProblem, change: Change) -> bool:
    changed = apply_change(problem, change)
    return bool(changed.people) and find_plan(changed) is not None


@settings(max_examples=count_tries(60, 150))
@given(small_problems())
def test_a_class_is_possible_after_the_change_and_not_after_a_smaller_one(
    problem: ClassProblem,
) -> None:
    change = find_smallest_change(problem)
    if change is None:
        return
    if len(change.left_out) < len(problem.people):
        assert is_enough(problem, change)
    for minutes, ball, coaches in product(range(4), range(3), range(2)):
        smaller = Change(minutes=minutes, coaches=coaches, props={"ball": ball} if ball else {})
        if weigh(smaller) < weigh(change):
            assert not is_enough(problem, smaller)


@settings(max_examples=count_tries(40, 100))
@given(small_problems())
def test_a_possible_class_needs_no_change(problem: ClassProblem) -> None:
    if find_plan(problem):
        change = find_smallest_change(problem)
        assert change is not None
        assert change.is_none


def test_one_more_ball_lets_both_work_on_the_same_strand() -> None:
    drill = Version("ball-hold", "front", "4-1-4-1", "lying", False, 100, worth.PRACTICE)
    drill = replace(drill, props=(("ball", 1),))
    easy = Version("belly", "breath", "4-1-4-1", "lying", False, 100, worth.KNOWN)
    problem = ClassProblem(
        people=("C1", "C2"),
        versions={"C1": (easy, drill), "C2": (easy, drill)},
        families=("lying",),
        seconds=300,
        most_blocks=1,
        close_looks=1,
        most_new=2,
        props={"ball": 1},
        set_up_seconds=30,
        rest_seconds=60,
    )
    change = find_smallest_change(problem, [("C1", "front"), ("C2", "front")])
    assert change == Change(props={"ball": 1})
