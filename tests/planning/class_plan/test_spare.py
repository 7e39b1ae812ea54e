from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

from hypothesis import given, settings

from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.score import Fault, score_plan
from builder.planning.class_plan.search import find_plan
from builder.planning.class_plan.spare import find_drop_order, find_spare
from builder.records.plan import ClassPlan, PlannedBlock, Turn
from tests.planning.class_plan.problems import COUNTS, FAMILIES, make_large_problem, small_problems
from tests.trying import count_tries


def add(plan: ClassPlan, *blocks: PlannedBlock) -> ClassPlan:
    return replace(plan, blocks=(*plan.blocks, *blocks))


def leave_out(plan: ClassPlan, numbers: tuple[int, ...]) -> ClassPlan:
    kept = (block for number, block in enumerate(plan.blocks, 1) if number not in numbers)
    return replace(plan, blocks=tuple(kept))


def try_blocks(problem: ClassProblem) -> Iterator[PlannedBlock]:
    """Go through every block that could be added."""
    ids = [[version.lesson_id for version in problem.versions[who]] for who in problem.people]
    for count, family, lessons in product(COUNTS, FAMILIES, product(*ids)):
        for size in range(len(problem.people) + 1):
            for seen in combinations(problem.people, size):
                turns = zip(problem.people, lessons, strict=True)
                yield PlannedBlock(
                    count, family, tuple(Turn(who, lesson, who in seen) for who, lesson in turns)
                )


def is_sound(problem: ClassProblem, plan: ClassPlan) -> bool:
    """Tell whether a plan keeps every rule but those of time and number, which spare may pass."""
    faults = {breach.fault for breach in score_plan(problem, plan).breaches}
    return faults <= {Fault.TIME, Fault.TOO_MANY_BLOCKS}


@settings(max_examples=count_tries(60, 150))
@given(small_problems())
def test_each_spare_block_is_the_best_of_all_that_could_be_added(problem: ClassProblem) -> None:
    found = find_plan(problem)
    if found is None:
        return
    plan = found.plan
    spare = find_spare(problem, plan)
    for number in range(2):
        before = add(plan, *spare[:number])
        every = [add(before, block) for block in try_blocks(problem)]
        worths = [score_plan(problem, each).points for each in every if is_sound(problem, each)]
        if number >= len(spare):
            assert worths == []
            return
        after = add(before, spare[number])
        assert is_sound(problem, after)
        assert score_plan(problem, after).points == max(worths)


@settings(max_examples=count_tries(60, 150))
@given(small_problems())
def test_each_block_to_leave_out_is_the_cheapest_of_those_left(problem: ClassProblem) -> None:
    found = find_plan(problem)
    if found is None:
        return
    plan = found.plan
    order = find_drop_order(problem, plan)
    numbers = range(1, len(plan.blocks) + 1)
    for size in range(len(plan.blocks)):
        gone = order[:size]
        scores = {
            number: score_plan(problem, leave_out(plan, (*gone, number)))
            for number in numbers
            if number not in gone
        }
        sound = {number: each.points for number, each in scores.items() if not each.breaches}
        if size >= len(order):
            assert sound == {}
            return
        assert sound[order[size]] == max(sound.values())


def test_a_large_class_gets_two_spare_blocks_with_a_turn_for_each_person() -> None:
    problem = make_large_problem(5)
    found = find_plan(problem)
    assert found is not None
    spare = find_spare(problem, found.plan)
    assert len(spare) == 2
    assert [len(block.turns) for block in spare] == [12, 12]
