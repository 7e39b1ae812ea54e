"""The class as a whole-number programme: how many blocks of each kind, and who does what there.

Blocks of one kind are counted, not told apart, so that no two answers are the same class with its
blocks changed over; `builder.planning.class_plan.arrange` deals the lessons out to single blocks.
What holds of each block then holds of their sum. The optimum is therefore a bound on every plan,
and the best plan itself wherever the dealing out succeeds.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from builder.planning.class_plan import worth
from builder.planning.class_plan.kinds import (
    Kind,
    find_most_blocks,
    fits_own_pace,
    list_all_kinds,
    list_kinds,
)
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import count_idle
from builder.planning.solver import Programme

_MINUTE = 60

Key = tuple[Kind, str, str]
"""A kind of block, a person and a lesson."""


@dataclass(slots=True)
class ClassProgramme:
    """The programme with the meaning of its variables."""

    problem: ClassProblem
    rows: Programme = field(default_factory=Programme)
    blocks: dict[Kind, int] = field(default_factory=dict)
    """How many blocks of a kind."""
    firsts: dict[Key, int] = field(default_factory=dict)
    """Whether somebody does a lesson for the first time in this class there."""
    repeats: dict[Key, int] = field(default_factory=dict)
    """Whether they do it a second time there."""
    looks: dict[tuple[Kind, str], int] = field(default_factory=dict)
    """In how many blocks of a kind a coach looks closely at a person."""
    slack: "Slack | None" = None
    """What may be added to what is there; None where nothing may."""

    def weigh(self, points: int) -> int:
        """Return what points gain; nothing where only the smallest change is looked for."""
        return 0 if self.slack else points


@dataclass(frozen=True, slots=True)
class Slack:
    """Variables for what a class would need beyond what it has."""

    minutes: int
    coaches: int
    news: int
    props: Mapping[str, int]
    left_out: Mapping[str, int]
    """Whether somebody stays out of the class."""


def write_programme(problem: ClassProblem, told_apart: Iterable[Kind] = ()) -> ClassProgramme:
    """Write the programme; blocks of kinds that are told apart get variables of their own."""
    written = ClassProgramme(problem)
    apart = set(told_apart)
    for kind in list_kinds(problem):
        most = find_most_blocks(problem, kind)
        copies = range(1, most + 1) if kind in apart else [0] * bool(most)
        for copy in copies:
            _add_kind(written, replace(kind, copy=copy))
    _order_copies(written)
    _bind_class(written)
    _bind_people(written)
    return written


def write_fixed_programme(
    problem: ClassProblem, blocks: Sequence[Sequence[Kind]], kept: Mapping[tuple[int, str], str]
) -> ClassProgramme:
    """Write the programme of a class whose blocks stand, and only who does what is open.

    ``blocks`` has what each block may be, its number as the copy. Every turn that stays as it was
    counts for it: ``kept`` has their lessons by number of block and person.
    """
    written = ClassProgramme(problem)
    for kinds in blocks:
        for kind in kinds:
            _add_kind(written, kind)
        written.rows.require([(written.blocks[kind], 1) for kind in kinds], 1, 1)
    for (kind, person, lesson), variable in (*written.firsts.items(), *written.repeats.items()):
        if kept.get((kind.copy, person)) == lesson:
            written.rows.gains[variable] += worth.KEPT
    _bind_class(written)
    _bind_people(written)
    return written


def write_slack_programme(
    problem: ClassProblem, must: Collection[tuple[str, str]]
) -> ClassProgramme:
    """Write the programme of the smallest change under which people do what they must.

    ``must`` has pairs of a person and a strand; with any, nobody may be left out. What makes a
    change small is in `worth`.
    """
    written = ClassProgramme(problem)
    written.slack = _add_slack(written)
    for kind in list_all_kinds(problem):
        for copy in range(1, min(problem.most_blocks, worth.MOST_COPIES) + 1):
            _add_kind(written, replace(kind, copy=copy))
    _order_copies(written)
    _bind_class(written)
    _bind_people(written)
    for person, strand in must:
        done = [
            (variable, 1.0)
            for (_, who, lesson), variable in written.firsts.items()
            if who == person and problem.by_lesson[who, lesson].strand_id == strand
        ]
        written.rows.require(done, low=1)
    if must:
        out = [(variable, 1) for variable in written.slack.left_out.values()]
        written.rows.require(out, 0, 0)
    return written


def _add_slack(written: ClassProgramme) -> Slack:
    problem, rows = written.problem, written.rows
    most = 2 * len(problem.people)
    return Slack(
        minutes=rows.add_whole(worth.MOST_MINUTES_MORE, worth.MINUTE_MORE),
        coaches=rows.add_whole(len(problem.people), worth.COACH_MORE),
        news=rows.add_whole(worth.MOST_NEW_MORE, worth.NEW_MORE),
        props={prop: rows.add_whole(most, worth.PROP_MORE) for prop in sorted(problem.props)},
        left_out={person: rows.add_whole(1, worth.PERSON_LESS) for person in problem.people},
    )


def _add_kind(written: ClassProgramme, kind: Kind) -> None:
    problem, rows = written.problem, written.rows
    count = written.blocks[kind] = rows.add_whole(find_most_blocks(problem, kind))
    for person in problem.people:
        turns: list[int] = []
        for version in problem.versions[person]:
            if kind.holds(version):
                turns += _add_turns(written, kind, person, version)
        out = _stay_out(written, person)
        rows.require([*((turn, 1) for turn in turns), *out, (count, -1)], 0, 0)
        _add_looks(written, kind, person)
    _bind_scarce(written, kind)


def _stay_out(written: ClassProgramme, person: str) -> list[tuple[int, float]]:
    """Let somebody who is left out of the class do nothing in a block."""
    if written.slack is None:
        return []
    out = written.rows.add_whole(1)
    written.rows.require([(out, 1), (written.slack.left_out[person], -1)], high=0)
    return [(out, 1)]


def _add_turns(
    written: ClassProgramme, kind: Kind, person: str, version: Version
) -> tuple[int, int]:
    cost = worth.IDLE * count_idle(kind.minutes, version)
    cost += worth.ADAPTED * version.is_adapted
    cost += worth.OWN_PACE * fits_own_pace(kind, version)
    key = (kind, person, version.lesson_id)
    first, again = written.weigh(version.points + cost), written.weigh(worth.REPEAT + cost)
    written.firsts[key] = written.rows.add_whole(1, first)
    written.repeats[key] = written.rows.add_whole(version.most_times - 1, again)
    return written.firsts[key], written.repeats[key]


def _add_looks(written: ClassProgramme, kind: Kind, person: str) -> None:
    """Let coaches look; whole turns and blocks make whole looks, so these need no such bound."""
    rows, count = written.rows, written.blocks[kind]
    look = written.looks[kind, person] = rows.add_share(find_most_blocks(written.problem, kind))
    new = [
        (variable, -1)
        for version in written.problem.versions[person]
        if version.is_new and kind.holds(version)
        for variable in _variables(written, (kind, person, version.lesson_id))
    ]
    if new:
        rows.require([(look, 1), *new], low=0)
    rows.require([(look, 1), (count, -1)], high=0)


def _variables(written: ClassProgramme, key: Key) -> tuple[int, int]:
    return written.firsts[key], written.repeats[key]


def _bind_scarce(written: ClassProgramme, kind: Kind) -> None:
    problem, rows, count = written.problem, written.rows, written.blocks[kind]
    slack = written.slack
    looks = [(written.looks[kind, person], 1.0) for person in problem.people]
    if problem.close_looks < len(problem.people):
        more = [(slack.coaches, -1.0)] if slack else []
        rows.require([*looks, *more, (count, -problem.close_looks)], high=0)
    used: dict[str, list[tuple[int, float]]] = defaultdict(list)
    for person in problem.people:
        for version in filter(kind.holds, problem.versions[person]):
            for prop, number in version.props:
                key = (kind, person, version.lesson_id)
                used[prop] += [(variable, number) for variable in _variables(written, key)]
    for prop, terms in sorted(used.items()):
        more = [(slack.props[prop], -1.0)] if slack else []
        rows.require([*terms, *more, (count, -problem.props[prop])], high=0)


def _order_copies(written: ClassProgramme) -> None:
    """Fill told-apart blocks from the first on: one class would else have many forms."""
    for kind, variable in written.blocks.items():
        before = written.blocks.get(replace(kind, copy=kind.copy - 1)) if kind.copy > 1 else None
        if before is not None:
            written.rows.require([(before, 1), (variable, -1)], low=0)


def _bind_class(written: ClassProgramme) -> None:
    problem, rows = written.problem, written.rows
    time = [(variable, kind.seconds(problem)) for kind, variable in written.blocks.items()]
    for family in problem.families:
        stay = rows.add_whole(1, written.weigh(worth.CHANGE))
        time.append((stay, worth.CHANGE_SECONDS))
        for kind, variable in written.blocks.items():
            if kind.family == family:
                most = find_most_blocks(problem, kind)
                rows.require([(variable, 1), (stay, -most)], high=0)
    if written.slack:
        time.append((written.slack.minutes, -_MINUTE))
    rows.require(time, high=problem.seconds)
    rows.require([(variable, 1) for variable in written.blocks.values()], 1, problem.most_blocks)
    calm = [(variable, 1) for kind, variable in written.blocks.items() if not kind.is_loaded]
    rows.require(calm, low=1)


def _bind_people(written: ClassProgramme) -> None:
    firsts: dict[tuple[str, str], list[tuple[int, float]]] = defaultdict(list)
    repeats: dict[tuple[str, str], list[tuple[int, float]]] = defaultdict(list)
    for key in written.firsts:
        firsts[key[1:]].append((written.firsts[key], 1))
        repeats[key[1:]].append((written.repeats[key], -1))
    for person_lesson, terms in firsts.items():
        written.rows.require(terms, high=1)
        written.rows.require([*terms, *repeats[person_lesson]], low=0)
    for person in written.problem.people:
        _bind_person(written, person, firsts)


def _bind_person(
    written: ClassProgramme,
    person: str,
    firsts: dict[tuple[str, str], list[tuple[int, float]]],
) -> None:
    problem, rows = written.problem, written.rows
    strands: dict[str, list[tuple[int, float]]] = defaultdict(list)
    new: list[tuple[int, float]] = []
    for version in problem.versions[person]:
        terms = firsts.get((person, version.lesson_id), [])
        strands[version.strand_id] += terms
        new += terms if version.is_new else []
    if new:
        more = [(written.slack.news, -1.0)] if written.slack else []
        rows.require([*new, *more], high=problem.most_new)
    for strand in problem.work_strands[person]:
        missed = rows.add_share(1, written.weigh(worth.MISSED_STRAND))
        rows.require([(missed, 1), *strands[strand]], low=1)
    unseen = rows.add_share(1, written.weigh(worth.NO_CLOSE_LOOK))
    looks = [(look, 1.0) for (_, who), look in written.looks.items() if who == person]
    rows.require([(unseen, 1), *looks], low=1)
