"""Schedule: the strands of each class day, and what each person is expected to work on there.

An expectation, not a promise: it takes for granted that everybody comes to every class and needs
as many classes for a lesson as the problem says.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.planning.weeks.problem import Way, WeeksProblem

Strands = tuple[tuple[str, ...], ...]
"""The strands of every class day, in teaching order, checks of a retest included."""
Ranks = Mapping[str, Mapping[str, float]]
"""By person: which of several open lessons comes first, lowest first; else teaching order."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One person works on one lesson on one class day."""

    day: int
    """Number of the class day, from 0."""
    strand_id: str
    lesson_id: str


@dataclass(frozen=True, slots=True, order=True)
class Worth:
    """What a schedule is worth: the first part that differs decides."""

    reached: int = 0
    """People who have the whole aim behind them after the last class."""
    lessons: int = 0
    """Lessons brought to readiness, of all people together."""
    earliness: int = 0
    """Class days from each lesson's readiness to the end, its own included, summed up (ours)."""


@dataclass(frozen=True)
class Schedule:
    """Strands by day with what follows from them."""

    strands: Strands
    turns: Mapping[str, tuple[Turn, ...]]
    """By person, in the order of days."""
    ready_on: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    """By person: lesson to the class day after which it is expected to be known."""
    reached: Mapping[str, int] = field(default_factory=dict)
    """Person to the class day after which they have the whole aim; -1 where they had it before."""
    worth: Worth = field(default_factory=Worth)


def follow(problem: WeeksProblem, strands: Sequence[Sequence[str]], ranks: Ranks) -> Schedule:
    """Return what is expected of each person: in each strand the first lesson that is open."""
    turns: dict[str, tuple[Turn, ...]] = {}
    ready_on: dict[str, dict[str, int]] = {}
    reached: dict[str, int] = {}
    for person, way in problem.ways.items():
        turns[person], ready_on[person] = follow_way(way, strands, ranks.get(person, {}))
        if way.is_open and len(ready_on[person]) == len(way.steps):
            reached[person] = max(ready_on[person].values(), default=-1)
    last = len(strands)
    ready = [day for days in ready_on.values() for day in days.values()]
    worth = Worth(len(reached), len(ready), sum(last - day for day in ready))
    return Schedule(tuple(map(tuple, strands)), turns, ready_on, reached, worth)


def follow_way(
    way: Way, strands: Sequence[Sequence[str]], ranks: Mapping[str, float]
) -> tuple[tuple[Turn, ...], dict[str, int]]:
    """Return one person's turns, and the day after which each lesson is known."""
    steps = sorted(way.steps, key=lambda step: ranks.get(step.lesson_id, 0))
    left = {step.lesson_id: step.classes for step in steps}
    turns: list[Turn] = []
    ready_on: dict[str, int] = {}
    for day, here in enumerate(strands):
        waiting, done = set(here), []
        for step in steps:
            if step.strand_id in waiting and all(name in ready_on for name in step.after):
                waiting.discard(step.strand_id)
                done.append(step)
        for step in done:
            turns.append(Turn(day, step.strand_id, step.lesson_id))
            left[step.lesson_id] -= 1
            if not left[step.lesson_id]:
                ready_on[step.lesson_id] = day
                steps.remove(step)
        if not steps:
            break
    return tuple(turns), ready_on


def drop_idle_strands(problem: WeeksProblem, schedule: Schedule) -> Schedule:
    """Leave strands out on days on which nobody would work in them; a retest keeps its checks."""
    used = {(turn.day, turn.strand_id) for turns in schedule.turns.values() for turn in turns}
    strands = tuple(
        tuple(
            strand
            for strand in here
            if (day, strand) in used or (problem.days[day].is_retest and strand in problem.checks)
        )
        for day, here in enumerate(schedule.strands)
    )
    return Schedule(strands, schedule.turns, schedule.ready_on, schedule.reached, schedule.worth)
