"""Search: the best plan for a class, with a proof or the gap that is left."""

import math
from dataclasses import dataclass

from builder.planning.class_plan.arrange import Choice, arrange
from builder.planning.class_plan.kinds import Kind
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.programme import ClassProgramme, write_programme
from builder.planning.class_plan.score import Score, score_plan
from builder.planning.solver import MOST_SECONDS, Answer, Ending, solve
from builder.records.plan import ClassPlan

_ROUNDING = 1e-6
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class Found:
    """The best plan that was found."""

    plan: ClassPlan
    score: Score
    bound: int
    """No plan is worth more points."""

    @property
    def is_proven(self) -> bool:
        """Tell whether no plan is better."""
        return self.score.points >= self.bound


def find_plan(problem: ClassProblem, seconds: float = MOST_SECONDS) -> Found | None:
    """Return the best plan for a class; None where none meets every rule.

    Blocks of one kind are told apart only where their lessons can't be dealt out; each round
    settles that for at least one kind more, so that it ends.
    """
    told_apart: frozenset[Kind] = frozenset()
    while True:
        written = write_programme(problem, told_apart)
        answer = solve(written.rows, seconds)
        if answer.ending is Ending.IMPOSSIBLE:
            return None
        choice = read_choice(written, answer)
        plan = arrange(problem, choice)
        score = score_plan(problem, plan) if plan else None
        many = frozenset(kind for kind, count in choice.blocks.items() if count > 1)
        if plan and score and (score.points >= round(answer.total) or not many):
            return Found(plan, score, math.floor(answer.bound + _ROUNDING))
        told_apart |= many


def read_choice(written: ClassProgramme, answer: Answer) -> Choice:
    """Read what a programme's answer means."""
    blocks: dict[Kind, int] = {}
    for kind, variable in written.blocks.items():
        count = round(answer.values[variable])
        if count:
            blocks[kind] = count
    lessons: dict[tuple[Kind, str], list[str]] = {
        (kind, person): [] for kind in blocks for person in written.problem.people
    }
    for done in (written.firsts, written.repeats):
        for (kind, person, lesson), variable in done.items():
            if answer.values[variable] > _HALF:
                lessons[kind, person].append(lesson)
    return Choice(blocks, {key: tuple(names) for key, names in lessons.items()})
