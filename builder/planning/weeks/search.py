"""Search: the best schedule of several weeks, with a proof or the gap that is left.

Three questions one after the other, each with the answers to those before kept: how many people
can reach the aim, how many lessons can be brought to readiness, and how early.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from builder.planning.solver import Answer, Ending, solve
from builder.planning.weeks.improve import improve, make_schedule
from builder.planning.weeks.problem import WeeksProblem, keep_people
from builder.planning.weeks.programme import (
    Terms,
    WeeksProgramme,
    set_gains,
    write_programme,
    write_start,
)
from builder.planning.weeks.schedule import Schedule, Strands, Worth, drop_idle_strands, follow

MOST_SECONDS = 15.0
"""For each of the questions; then two runs may differ."""
MOST_NODES = 150
"""Search steps for each of the questions: on any computer the same."""
HINT_TRIALS = 200
"""Changes tried by hand's means before the search is asked whether people can reach the aim."""
_HALF = 0.5
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search."""

    seconds: float = MOST_SECONDS
    nodes: int = MOST_NODES


@dataclass(frozen=True, slots=True)
class Found:
    """The best schedule that was found."""

    schedule: Schedule
    bound: Worth
    """Each part of it: no schedule that is as good in the parts before has more."""

    @property
    def is_proven(self) -> bool:
        """Tell whether no schedule is better."""
        return self.schedule.worth >= self.bound


@dataclass(slots=True)
class _Round:
    """The search as it stands."""

    written: WeeksProgramme
    best: Schedule
    effort: Effort

    def ask(self, terms: Terms) -> int:
        """Make a sum as large as can be; return how much larger it might still be."""
        if not terms:
            return 0
        set_gains(self.written, terms)
        start = write_start(self.written, self.best)
        answer = solve(
            self.written.rows, self.effort.seconds, start=start, most_nodes=self.effort.nodes
        )
        problem, ranks = self.written.problem, read_ranks(self.written, answer)
        self.take(
            improve(problem, follow(problem, _read_strands(self.written, answer), ranks), ranks)
        )
        known = write_start(self.written, self.best)
        reached = round(sum(known[variable] * gain for variable, gain in terms))
        self.written.rows.require(terms, low=reached)
        return 0 if answer.ending is Ending.PROVEN else _bound(answer, terms) - reached

    def take(self, schedule: Schedule) -> None:
        """Keep a schedule that is worth more."""
        if schedule.worth > self.best.worth:
            self.best = schedule


def find_schedule(problem: WeeksProblem, effort: Effort | None = None) -> Found:
    """Return the best schedule of several weeks."""
    first = improve(problem, make_schedule(problem, {}), {})
    search = _Round(write_programme(problem), first, effort or Effort())
    written = search.written
    sums = (written.list_reaching, written.list_lessons, written.list_earliness)
    gaps = [search.ask(list_terms()) for list_terms in sums]
    best = search.best.worth
    bound = Worth(best.reached + gaps[0], best.lessons + gaps[1], best.earliness + gaps[2])
    return Found(drop_idle_strands(problem, search.best), bound)


def can_reach(
    problem: WeeksProblem, people: Sequence[str], effort: Effort | None = None
) -> bool | None:
    """Tell whether there is a schedule by which all of some people reach the aim.

    None where the search came to no end.
    """
    problem = keep_people(problem, tuple(dict.fromkeys(people)))  # nobody else matters to it
    known = improve(problem, make_schedule(problem, {}), {}, trials=HINT_TRIALS)
    if set(people) <= known.reached.keys():
        return True
    written, most = write_programme(problem), effort or Effort()
    able = {person: g.reach for g in written.groups for person in g.people}
    waiting = [person for person in people if person in able or person not in known.reached]
    reaches = [(able.get(person), 1.0) for person in waiting]
    terms = [(reach, gain) for reach, gain in reaches if reach is not None]
    if len(terms) < len(waiting):
        return False
    set_gains(written, terms)
    start = write_start(written, known)
    answer = solve(written.rows, most.seconds, start=start, most_nodes=most.nodes)
    if round(answer.total) >= len(waiting):
        return True
    return False if _bound(answer, terms) < len(waiting) else None


def _bound(answer: Answer, terms: Terms) -> int:
    """Return what a sum of shares can't pass, even where the search ended before it began."""
    return math.floor(min(answer.bound, sum(gain for _, gain in terms)) + _ROUNDING)


def _read_strands(written: WeeksProgramme, answer: Answer) -> Strands:
    problem = written.problem
    chosen = {key for key, variable in written.chosen.items() if answer.values[variable] > _HALF}
    return tuple(
        tuple(
            strand.id
            for strand in problem.strands
            if (number, strand.id) in chosen or (day.is_retest and strand.is_check)
        )
        for number, day in enumerate(problem.days)
    )


def read_ranks(written: WeeksProgramme, answer: Answer) -> dict[str, dict[str, float]]:
    """Rank each lesson by the first day by which the answer has it done."""
    ranks: dict[str, dict[str, float]] = {}
    for group in written.groups:
        last = {step.lesson_id: step.classes for step in group.way.steps}
        days = dict.fromkeys(last, float(len(written.problem.days)))
        for ((lesson, number), day), variable in group.done.items():
            if number == last[lesson] and answer.values[variable] > _HALF:
                days[lesson] = min(days[lesson], day)
        ranks |= dict.fromkeys(group.people, days)
    return ranks
