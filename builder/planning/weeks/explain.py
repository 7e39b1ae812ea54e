"""Explain: who won't reach the aim by the last class, why, and what would help.

Every reason is found by asking what would be otherwise: with one thing changed, and nothing else,
there is a schedule by which this person reaches the aim and so does everybody who does now.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from builder.planning.weeks.problem import (
    MOST_MORE_WEEKS,
    Hindered,
    WeeksProblem,
    add_places,
    add_weeks,
    keep_people,
    lift_rest,
)
from builder.planning.weeks.schedule import Schedule
from builder.planning.weeks.search import Effort, can_reach

MOST_MORE_PLACES = 2
"""So many strands more in each class are looked at."""
HINT = Effort(seconds=3.0, nodes=20)
"""A hint is worth no longer wait."""


class Cause(StrEnum):
    """Why somebody doesn't reach the aim by the last class; the first that holds."""

    HINDERED = "hindered"
    """A lesson on the way can't be begun, however many classes there are."""
    OTHERS = "others"
    """Alone there would be time enough; the places go to what others need."""
    REST_DAYS = "rest-days"
    """There would be time enough, were no day kept free between days of work."""
    TOO_FEW_CLASSES = "too-few-classes"
    """Even alone, and without days of rest, there are too few classes."""
    UNKNOWN = "unknown"
    """The search came to no end."""


@dataclass(frozen=True, slots=True)
class Shortfall:
    """One person who doesn't reach the aim by the last class."""

    person_id: str
    cause: Cause
    hindered: tuple[Hindered, ...] = ()
    behind: tuple[str, ...] = ()
    missing: Mapping[str, int] = field(default_factory=dict)
    """Strand to the classes that are still needed in it after the last one; none if hindered."""
    more_weeks: int | None = None
    """The fewest weeks more after which they reach it too, without loss to those who do now."""
    is_fewest: bool = True
    """False where fewer weeks might do, but the search came to no end."""
    more_places: int | None = None
    """The fewest strands more in each class that would do the same in the weeks there are."""


def explain_shortfalls(
    problem: WeeksProblem, schedule: Schedule, effort: Effort = HINT
) -> tuple[Shortfall, ...]:
    """Return one reason for each person who doesn't reach the aim, in the order of people."""
    return tuple(
        _explain(problem, schedule, person, effort)
        for person in problem.people
        if person not in schedule.reached
    )


def find_missing(problem: WeeksProblem, schedule: Schedule, person: str) -> dict[str, int]:
    """Return by strand how many classes a person's way still needs after the last one."""
    done = [turn.lesson_id for turn in schedule.turns[person]]
    missing: dict[str, int] = {}
    for step in problem.ways[person].steps:
        left = step.classes - done.count(step.lesson_id)
        if left:
            missing[step.strand_id] = missing.get(step.strand_id, 0) + left
    return missing


def _explain(problem: WeeksProblem, schedule: Schedule, person: str, effort: Effort) -> Shortfall:
    way = problem.ways[person]
    if not way.is_open:
        return Shortfall(person, Cause.HINDERED, way.hindered, way.behind)
    together = (*schedule.reached, person)

    def reaches(changed: WeeksProblem) -> bool | None:
        return can_reach(changed, together, effort)

    weeks, is_fewest = _find_fewest_weeks(problem, reaches)
    return Shortfall(
        person,
        _find_cause(problem, person, effort),
        missing=find_missing(problem, schedule, person),
        more_weeks=weeks,
        is_fewest=is_fewest,
        more_places=next(
            (more for more in range(1, MOST_MORE_PLACES + 1) if reaches(add_places(problem, more))),
            None,
        ),
    )


def _find_cause(problem: WeeksProblem, person: str, effort: Effort) -> Cause:
    alone = keep_people(problem, (person,))
    for changed, cause in ((alone, Cause.OTHERS), (lift_rest(alone), Cause.REST_DAYS)):
        answer = can_reach(changed, (person,), effort)
        if answer is not False:
            return cause if answer else Cause.UNKNOWN
    return Cause.TOO_FEW_CLASSES


def _find_fewest_weeks(
    problem: WeeksProblem, reaches: Callable[[WeeksProblem], bool | None]
) -> tuple[int | None, bool]:
    """Return the fewest weeks more that are enough, by halving what is left in doubt.

    More weeks never do harm: the class days before stay as they are.
    """
    answers = {0: False, MOST_MORE_WEEKS: reaches(add_weeks(problem, MOST_MORE_WEEKS))}
    if not answers[MOST_MORE_WEEKS]:
        return None, answers[MOST_MORE_WEEKS] is False
    short, enough, is_sure = 0, MOST_MORE_WEEKS, True
    while enough - short > 1:
        middle = (short + enough) // 2
        answer = reaches(add_weeks(problem, middle))
        if answer:
            enough = middle
        else:
            short = middle
            is_sure = is_sure and answer is False
    return enough, is_sure
