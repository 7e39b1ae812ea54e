"""Spare: what to add to a class that has time left, and what to leave out of one that runs short.

Blocks are added one at a time at the end, each the best there is after those before it, so that
a coach who has time for one alone takes the first.
"""

from collections import Counter, defaultdict
from dataclasses import replace

from builder.planning.class_plan import worth
from builder.planning.class_plan.kinds import Kind, fits_own_pace, list_kinds
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import count_idle, score_plan
from builder.planning.solver import Ending, Programme, solve
from builder.records.plan import ClassPlan, PlannedBlock, Turn

MOST_SPARE = 2
"""How many blocks more a coach is offered (ours)."""
_HALF = 0.5


def find_spare(problem: ClassProblem, plan: ClassPlan) -> tuple[PlannedBlock, ...]:
    """Return up to two blocks to add at the end of a plan that keeps every rule.

    Time and the number of blocks don't bind them: they are for a class that goes faster than
    planned. Lessons that somebody did twice already are left out; nothing comes where somebody
    would have nothing to do.
    """
    spare: list[PlannedBlock] = []
    while len(spare) < MOST_SPARE:
        block = _find_next(problem, replace(plan, blocks=(*plan.blocks, *spare)))
        if block is None:
            break
        spare.append(block)
    return tuple(spare)


def find_drop_order(problem: ClassProblem, plan: ClassPlan) -> tuple[int, ...]:
    """Return the numbers of the blocks to leave out, the one that costs least first.

    Each is the cheapest once those before it are gone, and the class keeps every rule without
    all of them. Among equals the later block goes first.
    """
    left = dict(enumerate(plan.blocks, start=1))
    order: list[int] = []
    while True:
        points: dict[int, int] = {}
        for number in left:
            blocks = tuple(block for other, block in left.items() if other != number)
            score = score_plan(problem, replace(plan, blocks=blocks))
            if not score.breaches:
                points[number] = score.points
        if not points:
            return tuple(order)
        cheapest = max(points, key=lambda number: (points[number], number))
        order.append(cheapest)
        del left[cheapest]


def _find_next(problem: ClassProblem, plan: ClassPlan) -> PlannedBlock | None:
    choice = _Choice(problem, plan)
    for kind in list_kinds(choice.problem):
        choice.add_kind(kind)
    return choice.find()


class _Choice:
    """The programme of one block more: what kind it is, and who does what in it."""

    def __init__(self, problem: ClassProblem, plan: ClassPlan) -> None:
        turns = [turn for block in plan.blocks for turn in block.turns]
        self.times = Counter((turn.person_id, turn.lesson_id) for turn in turns)
        self.seen = {turn.person_id for turn in turns if turn.has_close_look}
        self.strands = {
            (person, problem.by_lesson[person, lesson].strand_id) for person, lesson in self.times
        }
        self.work = problem.work_strands
        self.family = plan.blocks[-1].family if plan.blocks else ""
        self.problem = _keep_open(problem, self.times)
        self.rows = Programme()
        self.kinds: dict[Kind, int] = {}
        self.turns: dict[tuple[Kind, str, Version], int] = {}
        self.looks = {
            person: self.rows.add_whole(1, 0 if person in self.seen else -worth.NO_CLOSE_LOOK)
            for person in problem.people
        }

    def add_kind(self, kind: Kind) -> None:
        """Let the block be of a kind in which everybody has something to do."""
        chosen = self.rows.add_whole(1, worth.CHANGE * (kind.family != self.family))
        self.kinds[kind] = chosen
        for person in self.problem.people:
            own = []
            for version in filter(kind.holds, self.problem.versions[person]):
                turn = self.rows.add_whole(1, self._weigh(kind, person, version))
                self.turns[kind, person, version] = turn
                own.append((turn, 1.0))
            self.rows.require([*own, (chosen, -1)], 0, 0)

    def find(self) -> PlannedBlock | None:
        """Return the best block; None where there is none."""
        self._bind()
        answer = solve(self.rows)
        if answer.ending is Ending.IMPOSSIBLE:
            return None
        kind = next(kind for kind, chosen in self.kinds.items() if answer.values[chosen] > _HALF)
        done = {
            person: version.lesson_id
            for (_, person, version), turn in self.turns.items()
            if answer.values[turn] > _HALF
        }
        return PlannedBlock(
            kind.count,
            kind.family,
            tuple(
                Turn(person, done[person], answer.values[self.looks[person]] > _HALF)
                for person in self.problem.people
            ),
        )

    def _weigh(self, kind: Kind, person: str, version: Version) -> int:
        """Return what a turn adds to the points of the class, as `score_plan` counts them."""
        points = worth.REPEAT if self.times[person, version.lesson_id] else version.points
        points += worth.IDLE * count_idle(kind.minutes, version)
        points += worth.ADAPTED * version.is_adapted
        points += worth.OWN_PACE * fits_own_pace(kind, version)
        strand = version.strand_id
        is_missed = strand in self.work[person] and (person, strand) not in self.strands
        return points - worth.MISSED_STRAND * is_missed

    def _bind(self) -> None:
        """Take one block alone, with the looks and props that there are."""
        self.rows.require([(chosen, 1) for chosen in self.kinds.values()], 1, 1)
        self.rows.require(
            [(look, 1) for look in self.looks.values()], high=self.problem.close_looks
        )
        used: dict[str, list[tuple[int, float]]] = defaultdict(list)
        new: dict[str, list[tuple[int, float]]] = defaultdict(list)
        for (_, person, version), turn in self.turns.items():
            for prop, count in version.props:
                used[prop].append((turn, count))
            if version.is_new:
                new[person].append((turn, -1))
        for prop, terms in sorted(used.items()):
            self.rows.require(terms, high=self.problem.props[prop])
        for person, terms in new.items():
            self.rows.require([(self.looks[person], 1), *terms], low=0)


def _keep_open(problem: ClassProblem, times: Counter[tuple[str, str]]) -> ClassProblem:
    """Return the problem with what each person may still do."""
    new = Counter(person for person, lesson in times if problem.by_lesson[person, lesson].is_new)

    def is_open(person: str, version: Version) -> bool:
        done = times[person, version.lesson_id]
        is_one_too_many = version.is_new and not done and new[person] >= problem.most_new
        return done < version.most_times and not is_one_too_many

    versions = {
        person: tuple(each for each in problem.versions[person] if is_open(person, each))
        for person in problem.people
    }
    return replace(problem, versions=versions)
