"""Drills of a block: what its clock runs, and what one person's turn is taken to have been."""

from collections.abc import Mapping
from math import ceil

from builder.course.dose import Dose, Sides
from builder.publishing.views.class_view import BlockView, TurnView
from builder.sums.schedule import make_plan

_MINUTE = 60
_SECOND_MS = 1000
_ONE_SET: Mapping[str, object] = {"sets": 1, "rest": 0, "sides": Sides.TOGETHER.value}


def describe_drill(block: BlockView) -> Mapping[str, object]:
    """Return the drill of a block as the schedule's script takes it.

    Sets and rests are told only where everybody shares them; else the count runs on until the
    block is over, after a whole breath.
    """
    shared = find_shared_dose(block)
    if block.tempo is None:
        return {"tempo": [], **_ONE_SET, "breaths": 0, "minutes": block.minutes}
    tempo = {"tempo": list(block.tempo.phases), "minutes": 0}
    if shared is None:
        breaths = ceil(block.minutes * _MINUTE / block.tempo.cycle_seconds)
        return {**tempo, **_ONE_SET, "breaths": breaths}
    return {
        **tempo,
        "sets": shared.sets,
        "breaths": shared.breaths,
        "rest": shared.rest_seconds,
        "sides": shared.sides.value,
    }


def find_shared_dose(block: BlockView) -> Dose | None:
    """Return the dose of everybody in a block; None where one of them has another."""
    doses = {turn.dose for turn in block.turns}
    dose = next(iter(doses)) if len(doses) == 1 else None
    if not isinstance(dose, Dose) or block.tempo is None:
        return None
    seconds = -(-make_plan(block.tempo, dose).end_ms // _SECOND_MS)
    is_shared = all(
        (turn.tempo, turn.rest_seconds) == (block.tempo, dose.rest_seconds)
        and turn.seconds <= seconds
        for turn in block.turns
    )
    return dose if is_shared else None


def count_breaths(turn: TurnView) -> int | None:
    """Return all breaths of a turn, one set more for a weaker side included; None untold."""
    if not isinstance(turn.dose, Dose):
        return None
    plan = make_plan(turn.tempo, turn.dose)
    extra = max(0, turn.seconds * _SECOND_MS - plan.end_ms)
    more = round(extra / (plan.round_ms + plan.rest_ms))
    return (turn.dose.rounds + more) * turn.dose.breaths
