"""Arrange: from how many blocks of each kind to single blocks in the order of the class."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.planning.class_plan import worth
from builder.planning.class_plan.kinds import Kind
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.solver import Ending, Programme, solve
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn


@dataclass(frozen=True, slots=True)
class Choice:
    """What the programme decided: kinds of blocks, and each person's lessons there."""

    blocks: Mapping[Kind, int]
    lessons: Mapping[tuple[Kind, str], tuple[str, ...]]
    """By kind and person, as many as there are blocks of the kind, repetitions included."""


def arrange(
    problem: ClassProblem, choice: Choice, order: Sequence[Kind] | None = None
) -> ClassPlan | None:
    """Deal each person's lessons out to single blocks; None where props or looks don't allow it.

    Of all ways it takes one with the most people at whom a coach looks closely. Blocks come in
    the order of what they ask, or in a given one.
    """
    order = order or _order_blocks(problem, choice.blocks)
    dealing = _Dealing(problem, order)
    for kind in choice.blocks:
        for person in problem.people:
            dealing.deal(kind, person, choice.lessons[kind, person])
    dealing.bind()
    answer = solve(dealing.rows)
    if answer.ending is Ending.IMPOSSIBLE:
        return None
    done = {key: answer.values[variable] > 0.5 for key, variable in dealing.turns.items()}
    looks = {key: answer.values[variable] > 0.5 for key, variable in dealing.looks.items()}
    blocks = []
    for number, kind in enumerate(order):
        turns = tuple(
            Turn(person, lesson, looks[number, person])
            for person in problem.people
            for lesson in sorted({lesson for _, who, lesson in done if who == person})
            if done.get((number, person, lesson))
        )
        blocks.append(PlannedBlock(kind.count, kind.family, turns))
    return ClassPlan(problem.title, problem.people, tuple(blocks))


def _order_blocks(problem: ClassProblem, blocks: Mapping[Kind, int]) -> list[Kind]:
    """Put a family with a quiet block first, then what asks least; quiet before work."""
    quiet = {kind.family for kind in blocks if not kind.is_loaded}
    first = next((family for family in problem.families if family in quiet), "")
    rank = {family: number for number, family in enumerate(problem.families)}
    order = sorted(
        blocks,
        key=lambda kind: (
            kind.family != first,
            rank[kind.family],
            kind.is_loaded,
            kind.count != OWN_PACE,
            kind,
        ),
    )
    return [kind for kind in order for _ in range(blocks[kind])]


class _Dealing:
    """The programme of dealing out: which person does which of their lessons in which block."""

    def __init__(self, problem: ClassProblem, order: Sequence[Kind]) -> None:
        self.problem = problem
        self.rows = Programme()
        self.places: dict[Kind, list[int]] = defaultdict(list)
        for number, kind in enumerate(order):
            self.places[kind].append(number)
        self.turns: dict[tuple[int, str, str], int] = {}
        self.looks = {
            (number, person): self.rows.add_whole(1)
            for number in range(len(order))
            for person in problem.people
        }

    def deal(self, kind: Kind, person: str, lessons: Iterable[str]) -> None:
        """Give each lesson as many of the blocks as it is to be done in, one a block."""
        wanted = Counter(lessons)
        for lesson, times in wanted.items():
            is_new = self.problem.by_lesson[person, lesson].is_new
            own = [self.rows.add_whole(1) for _ in self.places[kind]]
            self.rows.require([(variable, 1) for variable in own], times, times)
            for number, variable in zip(self.places[kind], own, strict=True):
                self.turns[number, person, lesson] = variable
                if is_new:
                    self.rows.require([(self.looks[number, person], 1), (variable, -1)], low=0)
        for number in self.places[kind]:
            here = [(self.turns[number, person, lesson], 1) for lesson in wanted]
            self.rows.require(here, 1, 1)

    def bind(self) -> None:
        """Keep props and close looks of each block, and let everybody be seen if that goes."""
        numbers = [number for places in self.places.values() for number in places]
        for number in sorted(numbers):
            looks = [(self.looks[number, person], 1) for person in self.problem.people]
            self.rows.require(looks, high=self.problem.close_looks)
            self._bind_props(number)
        for person in self.problem.people:
            unseen = self.rows.add_share(1, worth.NO_CLOSE_LOOK)
            looks = [(self.looks[number, person], 1) for number in sorted(numbers)]
            self.rows.require([(unseen, 1), *looks], low=1)

    def _bind_props(self, block: int) -> None:
        used: dict[str, list[tuple[int, float]]] = defaultdict(list)
        for (number, person, lesson), variable in self.turns.items():
            if number == block:
                for prop, count in self.problem.by_lesson[person, lesson].props:
                    used[prop].append((variable, count))
        for prop, terms in sorted(used.items()):
            self.rows.require(terms, high=self.problem.props[prop])
