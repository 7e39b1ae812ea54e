"""Explain: why somebody does this and nothing better.

A reason is given only where it is the whole reason: were the one thing otherwise that it names,
the same plan with this one turn changed would keep every rule and be worth more, so that the best
plan would be another.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.refusal import Refusal
from builder.planning.class_plan.score import Breach, Fault, score_plan
from builder.records.plan import ClassPlan, Turn

_SCARCE = (Fault.PROPS, Fault.CLOSE_LOOKS, Fault.TIME, Fault.TOO_MANY_NEW)
"""What may be lacking; any other fault is no lack."""

WhatIf = Callable[[Refusal], ClassProblem]
"""The problem as it would be, were the ground of a refusal gone."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why somebody does one lesson in a block and not another that is worth more."""

    block: int
    """Number of the block, from 1."""
    person_id: str
    lesson_id: str
    """What they do."""
    better_id: str
    """What would be worth more."""
    gain: int
    """By how many points."""
    refusal: Refusal | None = None
    """Why they may not do it; None where something is lacking instead."""
    lack: Breach | None = None
    """What is lacking for it."""


def explain_plan(
    problem: ClassProblem, plan: ClassPlan, refusals: Iterable[Refusal], what_if: WhatIf
) -> tuple[Reason, ...]:
    """Return at most one reason for each turn: first what others do in the block, then what gains.

    ``refusals`` are those of the people of the plan.
    """
    refused = sorted(refusals, key=lambda each: (each.person_id, each.version.lesson_id))
    fitting = {(block.count, block.family) for block in plan.blocks}
    supposed = {
        refusal: what_if(refusal)
        for refusal in refused
        if any(refusal.version.fits(*frame) for frame in fitting)
    }
    reasons = []
    for number, block in enumerate(plan.blocks, start=1):
        done = {turn.lesson_id for turn in block.turns}
        for at in range(len(block.turns)):
            found = [
                *_find_refused(plan, (number, at), supposed),
                *_find_lacking(problem, plan, (number, at)),
            ]
            if found:
                order = sorted(
                    found,
                    key=lambda each: (each.better_id not in done, -each.gain, each.better_id),
                )
                reasons.append(order[0])
    return tuple(reasons)


def _find_refused(
    plan: ClassPlan, spot: tuple[int, int], supposed: dict[Refusal, ClassProblem]
) -> Iterator[Reason]:
    block, turn = plan.blocks[spot[0] - 1], plan.blocks[spot[0] - 1].turns[spot[1]]
    for refusal, problem in supposed.items():
        if refusal.person_id != turn.person_id:
            continue
        version = problem.by_lesson.get((turn.person_id, refusal.version.lesson_id))
        if version is None or not version.fits(block.count, block.family):
            continue
        swapped = _swap(plan, spot, version)
        now, then = score_plan(problem, plan), score_plan(problem, swapped)
        if not then.breaches and then.points > now.points:
            gain = then.points - now.points
            ids = (turn.person_id, turn.lesson_id, version.lesson_id)
            yield Reason(spot[0], *ids, gain, refusal=refusal)


def _find_lacking(
    problem: ClassProblem, plan: ClassPlan, spot: tuple[int, int]
) -> Iterator[Reason]:
    block, turn = plan.blocks[spot[0] - 1], plan.blocks[spot[0] - 1].turns[spot[1]]
    current = problem.by_lesson.get((turn.person_id, turn.lesson_id))
    now = score_plan(problem, plan)
    for version in problem.versions[turn.person_id]:
        if not version.fits(block.count, block.family):
            continue
        if current is None or version.points <= current.points:
            continue
        then = score_plan(problem, _swap(plan, spot, version))
        lack = _find_one_lack(then.breaches)
        if lack is not None and then.points > now.points:
            gain = then.points - now.points
            ids = (turn.person_id, turn.lesson_id, version.lesson_id)
            yield Reason(spot[0], *ids, gain, lack=lack)


def _find_one_lack(breaches: Sequence[Breach]) -> Breach | None:
    """Return the one thing that is lacking; None where it is none, or more than one."""
    if len(breaches) == 1 and breaches[0].fault in _SCARCE:
        return breaches[0]
    return None


def _swap(plan: ClassPlan, spot: tuple[int, int], version: Version) -> ClassPlan:
    """Return the plan with one turn changed; a new lesson is looked at closely."""
    number, at = spot
    block = plan.blocks[number - 1]
    before = block.turns[at]
    look = before.has_close_look or version.is_new
    turn = Turn(before.person_id, version.lesson_id, look)
    changed = replace(block, turns=(*block.turns[:at], turn, *block.turns[at + 1 :]))
    return replace(plan, blocks=(*plan.blocks[: number - 1], changed, *plan.blocks[number:]))
