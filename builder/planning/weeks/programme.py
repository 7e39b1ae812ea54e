"""Several weeks as a whole-number programme: a strand on a day, a class of a lesson by a day.

A lesson that needs three classes is three units in a row. For each unit and day there is one
variable: done by the end of that day. Where a strand's units follow each other in a line, whole
choices of strands make them whole by themselves. People of equal standing are one group.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from builder.planning.solver import Programme
from builder.planning.weeks.problem import Step, StrandRule, Way, WeeksProblem
from builder.planning.weeks.schedule import Schedule

Unit = tuple[str, int]
"""A lesson and which of its classes, from 1."""
Terms = list[tuple[int, float]]


@dataclass(slots=True)
class Group:
    """People who need the same, with their variables."""

    people: tuple[str, ...]
    way: Way
    done: dict[tuple[Unit, int], int] = field(default_factory=dict)
    """Whether a unit is done by the end of a day."""
    reach: int | None = None
    """Whether they have the whole aim in the end; None where that can't be."""


@dataclass(slots=True)
class WeeksProgramme:
    """The programme with the meaning of its variables."""

    problem: WeeksProblem
    rows: Programme = field(default_factory=Programme)
    chosen: dict[tuple[int, str], int] = field(default_factory=dict)
    """Whether a class day has a strand."""
    counts: dict[str, int] = field(default_factory=dict)
    """On how many days a strand comes; deciding them first is quicker than single days."""
    groups: list[Group] = field(default_factory=list)

    def list_reaching(self) -> Terms:
        """Return the people who reach the aim, as terms."""
        return [(g.reach, len(g.people)) for g in self.groups if g.reach is not None]

    def list_lessons(self) -> Terms:
        """Return the lessons brought to readiness, as terms."""
        last = len(self.problem.days) - 1
        return [term for term, day in self._list_ready() if day == last]

    def list_earliness(self) -> Terms:
        """Return the days from each lesson's readiness to the end, as terms."""
        return [term for term, _ in self._list_ready()]

    def _list_ready(self) -> Iterator[tuple[tuple[int, float], int]]:
        for group in self.groups:
            last = {(step.lesson_id, step.classes) for step in group.way.steps}
            for (unit, day), variable in group.done.items():
                if unit in last:
                    yield (variable, len(group.people)), day


def write_programme(problem: WeeksProblem) -> WeeksProgramme:
    """Write the programme; nothing is gained in it yet."""
    written = WeeksProgramme(problem)
    for strand in problem.strands:
        _add_strand(written, strand)
    for number in range(len(problem.days)):
        fitting = [
            (variable, 1.0)
            for (day, strand_id), variable in written.chosen.items()
            if day == number and not _is_free(problem, number, strand_id)
        ]
        written.rows.require(fitting, high=problem.count_places(number))
    for limit in problem.limits:
        days = [(written.chosen[day, limit.strand_id], 1.0) for day in limit.days]
        written.rows.require(days, high=limit.most)
    alike: dict[Way, list[str]] = defaultdict(list)
    for person, way in problem.ways.items():
        alike[way].append(person)
    for way, people in alike.items():
        if way.steps:
            _add_group(written, Group(tuple(people), way))
    return written


def _is_free(problem: WeeksProblem, number: int, strand_id: str) -> bool:
    return problem.days[number].is_retest and strand_id in problem.checks


def _add_strand(written: WeeksProgramme, strand: StrandRule) -> None:
    days = written.problem.list_open_days(strand)
    for day in days:
        written.chosen[day, strand.id] = written.rows.add_whole(1)
    written.counts[strand.id] = written.rows.add_whole(len(days))
    chosen = [(written.chosen[day, strand.id], -1.0) for day in days]
    written.rows.require([(written.counts[strand.id], 1.0), *chosen], 0, 0)


def _add_group(written: WeeksProgramme, group: Group) -> None:
    problem = written.problem
    opened = {strand.id: problem.list_open_days(strand) for strand in problem.strands}
    earliest: dict[Unit, int] = {}
    in_line = {strand_id: _is_in_line(group.way, strand_id) for strand_id in opened}
    for step in group.way.steps:
        for unit, before in _list_units(group.way, step):
            after = max((earliest[each] + 1 for each in before), default=0)
            days = [day for day in opened[step.strand_id] if day >= after]
            earliest[unit] = days[0] if days else len(problem.days)
            add = written.rows.add_share if in_line[step.strand_id] else written.rows.add_whole
            for day in range(earliest[unit], len(problem.days)):
                group.done[unit, day] = add(1)
                _order(written.rows, group, unit, before, day)
    for strand_id in opened:
        _bind_strand(written, group, strand_id)
    _add_reach(written, group)
    written.groups.append(group)


def _list_units(way: Way, step: Step) -> Iterator[tuple[Unit, tuple[Unit, ...]]]:
    """Yield each unit of a lesson with the units that come before it."""
    classes = {each.lesson_id: each.classes for each in way.steps}
    yield (step.lesson_id, 1), tuple((name, classes[name]) for name in step.after)
    for number in range(2, step.classes + 1):
        yield (step.lesson_id, number), ((step.lesson_id, number - 1),)


def _is_in_line(way: Way, strand_id: str) -> bool:
    """Tell whether each lesson of a strand comes after all those of it that are named before."""
    before: dict[str, set[str]] = {}
    row: list[str] = []
    for step in way.steps:
        before[step.lesson_id] = set(step.after).union(*(before[name] for name in step.after))
        if step.strand_id == strand_id:
            if not before[step.lesson_id] >= set(row):
                return False
            row.append(step.lesson_id)
    return True


def _order(rows: Programme, group: Group, unit: Unit, before: Sequence[Unit], day: int) -> None:
    """Keep what is done done, and let nothing be done before what it builds on."""
    variable = group.done[unit, day]
    if (unit, day - 1) in group.done:
        rows.require([(variable, 1.0), (group.done[unit, day - 1], -1.0)], low=0)
    for each in before:
        rows.require([(variable, 1.0), (group.done[each, day - 1], -1.0)], high=0)


def _bind_strand(written: WeeksProgramme, group: Group, strand_id: str) -> None:
    """Let each person do one unit at most of a strand, on days that have it."""
    units = [
        (step.lesson_id, number)
        for step in group.way.steps
        if step.strand_id == strand_id
        for number in range(1, step.classes + 1)
    ]
    for day in range(len(written.problem.days)):
        terms = [(group.done[unit, day], 1.0) for unit in units if (unit, day) in group.done]
        terms += [
            (group.done[unit, day - 1], -1.0) for unit in units if (unit, day - 1) in group.done
        ]
        if terms:
            chosen = written.chosen.get((day, strand_id))
            written.rows.require(
                [*terms, *([(chosen, -1.0)] if chosen is not None else [])], high=0
            )


def _add_reach(written: WeeksProgramme, group: Group) -> None:
    last = len(written.problem.days) - 1
    ends = [((step.lesson_id, step.classes), last) for step in group.way.steps]
    if group.way.is_open and all(end in group.done for end in ends):
        group.reach = written.rows.add_whole(1)
        for end in ends:
            written.rows.require([(group.reach, 1.0), (group.done[end], -1.0)], high=0)


def set_gains(written: WeeksProgramme, terms: Sequence[tuple[int, float]]) -> None:
    """Let a sum be what is to be as large as can be, and nothing else."""
    gains = written.rows.gains
    gains[:] = [0.0] * len(gains)
    for variable, gain in terms:
        gains[variable] += gain


def write_start(written: WeeksProgramme, schedule: Schedule) -> tuple[float, ...]:
    """Return the variables' values for a schedule that is known."""
    values = [0.0] * len(written.rows.lows)
    for day, here in enumerate(schedule.strands):
        for strand_id in here:
            values[written.chosen[day, strand_id]] = 1
            values[written.counts[strand_id]] += 1
    for group in written.groups:
        person = group.people[0]
        done_on = _list_days(schedule, person)
        for (unit, day), variable in group.done.items():
            values[variable] = float(done_on.get(unit, day + 1) <= day)
        if group.reach is not None:
            values[group.reach] = float(person in schedule.reached)
    return tuple(values)


def _list_days(schedule: Schedule, person: str) -> Mapping[Unit, int]:
    times: dict[str, int] = defaultdict(int)
    days: dict[Unit, int] = {}
    for turn in schedule.turns[person]:
        times[turn.lesson_id] += 1
        days[turn.lesson_id, times[turn.lesson_id]] = turn.day
    return days
