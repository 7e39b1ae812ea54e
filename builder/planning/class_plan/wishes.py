"""Wishes: strands of the class in which somebody has work to do and the plan has none for them."""

from collections.abc import Iterable
from dataclasses import dataclass

from builder.planning.class_plan.changes import Change, find_smallest_change
from builder.planning.class_plan.problem import ClassProblem
from builder.records.plan import ClassPlan


@dataclass(frozen=True, slots=True)
class Wish:
    """One strand, the people who go without, and what would allow it."""

    strand_id: str
    people: tuple[str, ...]
    change: Change | None
    """The smallest change under which they work on it as well as whoever does already, or, where
    none allows that, in their place; a change of nothing where there is room, and other things are
    worth more. None where none helps.
    """
    blockers: tuple[str, ...] = ()
    """People who have nothing to do in any block in which that could be worked on."""


def find_wishes(problem: ClassProblem, plan: ClassPlan, strands: Iterable[str]) -> tuple[Wish, ...]:
    """Return the wishes that a plan leaves open, strands in the given order."""
    done = {
        (turn.person_id, problem.by_lesson[turn.person_id, turn.lesson_id].strand_id)
        for block in plan.blocks
        for turn in block.turns
        if (turn.person_id, turn.lesson_id) in problem.by_lesson
    }
    wishes = []
    for strand in strands:
        missed = tuple(
            person
            for person in problem.people
            if strand in problem.work_strands[person] and (person, strand) not in done
        )
        if missed:
            change = _find_change(problem, strand, missed)
            blockers = _find_blockers(problem, strand, missed) if change is None else ()
            wishes.append(Wish(strand, missed, change, blockers))
    return tuple(wishes)


def _find_change(problem: ClassProblem, strand: str, missed: tuple[str, ...]) -> Change | None:
    """Return what would allow a strand to all who have work in it, else to those who miss it."""
    everybody = [person for person in problem.people if strand in problem.work_strands[person]]
    together = find_smallest_change(problem, [(person, strand) for person in everybody])
    if together is not None or len(missed) == len(everybody):
        return together
    return find_smallest_change(problem, [(person, strand) for person in missed])


def _find_blockers(problem: ClassProblem, strand: str, people: tuple[str, ...]) -> tuple[str, ...]:
    """Return who stands in the way of the block in which the fewest do; nobody where none does."""
    frames = {
        (version.family, version.count)
        for person in people
        for version in problem.versions[person]
        if version.strand_id == strand and version.has_work
    }
    blockers = [
        tuple(
            person
            for person in problem.people
            if not any(each.fits(count, family) for each in problem.versions[person])
        )
        for family, count in sorted(frames)
    ]
    return min(blockers, key=len, default=())
