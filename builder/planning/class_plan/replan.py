"""Replan: somebody comes or goes at the door; the blocks stand, and only who does what changes."""

from dataclasses import replace

from builder.planning.class_plan.arrange import arrange
from builder.planning.class_plan.kinds import Kind, list_all_kinds
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.programme import write_fixed_programme
from builder.planning.class_plan.score import score_plan
from builder.planning.class_plan.search import Found, read_choice
from builder.planning.solver import Ending, solve
from builder.records.plan import ClassPlan

_MOST_MINUTES_OTHER = 2
"""How much longer or shorter a block may become."""
_MOST_SECONDS = 20.0
"""People stand at the door."""


def replan(problem: ClassProblem, before: ClassPlan) -> Found | None:
    """Return a good plan with the blocks of an earlier one, for the people of the problem.

    Count, position family and order of the blocks stay, and so does what people do, unless more is
    gained by a change (`worth.KEPT`). None where somebody has no lesson in one of the blocks, or
    time or props no longer allow them; then the class wants a new plan.
    """
    blocks = _list_blocks(problem, before)
    if not all(blocks):
        return None
    kept = {
        (number, turn.person_id): turn.lesson_id
        for number, block in enumerate(before.blocks, start=1)
        for turn in block.turns
    }
    written = write_fixed_programme(problem, blocks, kept)
    answer = solve(written.rows, _MOST_SECONDS)
    if answer.ending is Ending.IMPOSSIBLE:
        return None
    choice = read_choice(written, answer)
    plan = arrange(problem, choice, sorted(choice.blocks, key=lambda kind: kind.copy))
    if plan is None:
        return None
    score = score_plan(problem, plan)
    return None if score.breaches else Found(plan, score, score.points)


def _list_blocks(problem: ClassProblem, plan: ClassPlan) -> list[list[Kind]]:
    """Return what each block may become: minutes and load may change, the first stays quiet."""
    kinds = list_all_kinds(problem)
    times = score_plan(problem, plan).times
    return [
        [
            replace(kind, copy=number)
            for kind in kinds
            if (kind.family, kind.count) == (block.family, block.count)
            and (number > 1 or not kind.is_loaded)
            and abs(kind.minutes - time.minutes) <= _MOST_MINUTES_OTHER
        ]
        for number, (block, time) in enumerate(zip(plan.blocks, times, strict=True), start=1)
    ]
