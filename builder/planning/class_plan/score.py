"""Score: what a class plan is worth, how long it takes, and where it breaks a rule.

The search, the check of a plan edited by hand, the explanations and the tests by brute force all
ask this one function.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock

_MINUTE = 60


class Fault(StrEnum):
    """A rule of classes that a plan breaks."""

    EMPTY = "empty"
    WRONG_PEOPLE = "wrong-people"
    """A block has not just one turn for each person of the class."""
    NOT_ALLOWED = "not-allowed"
    """The lesson isn't among those that the person may do today."""
    WRONG_COUNT = "wrong-count"
    WRONG_FAMILY = "wrong-family"
    TOO_OFTEN = "too-often"
    """The same lesson more often than a class allows."""
    TOO_MANY_NEW = "too-many-new"
    NO_LOOK_AT_NEW = "no-look-at-new"
    PROPS = "props"
    CLOSE_LOOKS = "close-looks"
    NO_WARM_UP = "no-warm-up"
    """The first block is one of work."""
    TOO_MANY_BLOCKS = "too-many-blocks"
    TIME = "time"


@dataclass(frozen=True, slots=True)
class Breach:
    """One rule broken at one place of a plan."""

    fault: Fault
    block: int | None = None
    """The number of the block from 1; None where it is the whole class."""
    person_id: str = ""
    lesson_id: str = ""
    prop_id: str = ""
    wanted: int = 0
    """How many, or how many seconds, the plan takes."""
    there: int = 0
    """How many there are."""


@dataclass(frozen=True, slots=True)
class BlockTime:
    """When a block begins and how long it lasts, in seconds."""

    start_seconds: int
    minutes: int
    rest_seconds: int
    """The rest after it."""
    is_loaded: bool


@dataclass(frozen=True, slots=True)
class Score:
    """A plan weighed."""

    points: int
    breaches: tuple[Breach, ...]
    times: tuple[BlockTime, ...]
    seconds: int
    """The whole class, ways from one position family to the next included."""


def score_plan(problem: ClassProblem, plan: ClassPlan) -> Score:
    """Weigh a plan; breaches come in the order of the class."""
    times, seconds = _time_blocks(problem, plan)
    breaches = [*_find_breaches(problem, plan, times)]
    if seconds > problem.seconds:
        breaches.append(Breach(Fault.TIME, wanted=seconds, there=problem.seconds))
    points = sum(
        (
            _sum_lessons(problem, plan, times),
            _sum_missed(problem, plan),
            worth.CHANGE * _count_stays(plan),
        )
    )
    return Score(points, tuple(breaches), times, seconds)


def _versions(problem: ClassProblem, block: PlannedBlock) -> Iterator[tuple[str, Version]]:
    for turn in block.turns:
        version = problem.by_lesson.get((turn.person_id, turn.lesson_id))
        if version is not None:
            yield turn.person_id, version


def _time_blocks(problem: ClassProblem, plan: ClassPlan) -> tuple[tuple[BlockTime, ...], int]:
    now, family, times = 0, "", []
    for block in plan.blocks:
        versions = [version for _, version in _versions(problem, block)]
        minutes = max((version.minutes for version in versions), default=0)
        is_loaded = any(version.is_loaded for version in versions)
        now += worth.CHANGE_SECONDS * (block.family != family) + problem.set_up_seconds
        rest = problem.rest_seconds if is_loaded else 0
        times.append(BlockTime(now, minutes, rest, is_loaded))
        now, family = now + minutes * _MINUTE + rest, block.family
    return tuple(times), now


def _count_stays(plan: ClassPlan) -> int:
    families = [block.family for block in plan.blocks]
    return sum(family != before for family, before in zip(families, ["", *families], strict=False))


def _sum_lessons(problem: ClassProblem, plan: ClassPlan, times: tuple[BlockTime, ...]) -> int:
    done: set[tuple[str, str]] = set()
    points = 0
    for block, time in zip(plan.blocks, times, strict=True):
        for person, version in _versions(problem, block):
            key = (person, version.lesson_id)
            points += worth.REPEAT if key in done else version.points
            points += worth.IDLE * count_idle(time.minutes, version)
            points += worth.ADAPTED * version.is_adapted
            points += worth.OWN_PACE * (version.count == OWN_PACE != block.count)
            done.add(key)
    return points


def count_idle(minutes: int, version: Version) -> int:
    """Return the whole half minutes that somebody waits in a block of some minutes."""
    return (minutes * _MINUTE - version.seconds) // worth.IDLE_SECONDS


def _sum_missed(problem: ClassProblem, plan: ClassPlan) -> int:
    done = {
        (person, version.strand_id)
        for block in plan.blocks
        for person, version in _versions(problem, block)
    }
    seen = {turn.person_id for block in plan.blocks for turn in block.turns if turn.has_close_look}
    missed = sum(
        (person, strand) not in done
        for person in problem.people
        for strand in problem.work_strands[person]
    )
    unseen = sum(person not in seen for person in problem.people)
    return worth.MISSED_STRAND * missed + worth.NO_CLOSE_LOOK * unseen


def _find_breaches(
    problem: ClassProblem, plan: ClassPlan, times: tuple[BlockTime, ...]
) -> Iterator[Breach]:
    if not plan.blocks:
        yield Breach(Fault.EMPTY)
    elif times[0].is_loaded:
        yield Breach(Fault.NO_WARM_UP, block=1)
    if len(plan.blocks) > problem.most_blocks:
        yield Breach(Fault.TOO_MANY_BLOCKS, wanted=len(plan.blocks), there=problem.most_blocks)
    for number, block in enumerate(plan.blocks, start=1):
        yield from _find_turn_breaches(problem, block, number)
        yield from _find_scarcity(problem, block, number)
    yield from _find_repetitions(problem, plan)


def _find_turn_breaches(
    problem: ClassProblem, block: PlannedBlock, number: int
) -> Iterator[Breach]:
    if sorted(turn.person_id for turn in block.turns) != sorted(problem.people):
        yield Breach(Fault.WRONG_PEOPLE, number)
    for turn in block.turns:
        at = (number, turn.person_id, turn.lesson_id)
        version = problem.by_lesson.get((turn.person_id, turn.lesson_id))
        if version is None:
            yield Breach(Fault.NOT_ALLOWED, *at)
            continue
        if version.family != block.family:
            yield Breach(Fault.WRONG_FAMILY, *at)
        if version.count not in (block.count, OWN_PACE):
            yield Breach(Fault.WRONG_COUNT, *at)
        if version.is_new and not turn.has_close_look:
            yield Breach(Fault.NO_LOOK_AT_NEW, *at)


def _find_scarcity(problem: ClassProblem, block: PlannedBlock, number: int) -> Iterator[Breach]:
    looks = sum(turn.has_close_look for turn in block.turns)
    if looks > problem.close_looks:
        yield Breach(Fault.CLOSE_LOOKS, number, wanted=looks, there=problem.close_looks)
    used: Counter[str] = Counter()
    for _, version in _versions(problem, block):
        used.update(dict(version.props))
    for prop, wanted in sorted(used.items()):
        if wanted > problem.props[prop]:
            there = problem.props[prop]
            yield Breach(Fault.PROPS, number, prop_id=prop, wanted=wanted, there=there)


def _find_repetitions(problem: ClassProblem, plan: ClassPlan) -> Iterator[Breach]:
    times = Counter(
        (turn.person_id, turn.lesson_id) for block in plan.blocks for turn in block.turns
    )
    new: Counter[str] = Counter()
    for (person, lesson), wanted in times.items():
        version = problem.by_lesson.get((person, lesson))
        new[person] += version is not None and version.is_new
        most = version.most_times if version else worth.MOST_TIMES
        if wanted > most:
            yield Breach(
                Fault.TOO_OFTEN,
                person_id=person,
                lesson_id=lesson,
                wanted=wanted,
                there=most,
            )
    for person, wanted in new.items():
        if wanted > problem.most_new:
            there = problem.most_new
            yield Breach(Fault.TOO_MANY_NEW, person_id=person, wanted=wanted, there=there)
