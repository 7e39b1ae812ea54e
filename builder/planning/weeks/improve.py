"""Improve: a good schedule by hand's means, as a start for the search and where it has no time.

First day by day what brings most people on; then single strands are changed for others for as
long as that is worth more. Nothing here is left to chance.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from builder.planning.weeks.problem import WeeksProblem
from builder.planning.weeks.schedule import Ranks, Schedule, follow

MOST_TRIALS = 1500
"""A second or two for a dozen people (ours)."""
_Days = list[list[str]]


def make_schedule(problem: WeeksProblem, ranks: Ranks) -> Schedule:
    """Return a schedule that keeps every rule, strands filled in day by day."""
    days: _Days = [_list_checks(problem, number) for number in range(len(problem.days))]
    for number in range(len(days)):
        wanted = _count_wanted(problem, days[:number], ranks)
        for strand_id in sorted(wanted, key=lambda each: (-wanted[each], each)):
            if may_add(problem, days, number, strand_id):
                days[number].append(strand_id)
    return follow(problem, _sort(problem, days), ranks)


def improve(
    problem: WeeksProblem, schedule: Schedule, ranks: Ranks, trials: int = MOST_TRIALS
) -> Schedule:
    """Change strands of single days for as long as that is worth more."""
    best, left, has_changed = schedule, trials, True
    while has_changed:
        has_changed = False
        for days in _list_changed(problem, best.strands):
            left -= 1
            if left < 0:
                return best
            other = follow(problem, _sort(problem, days), ranks)
            if other.worth > best.worth:
                best, has_changed = other, True
                break
    return best


def may_add(problem: WeeksProblem, days: Sequence[Sequence[str]], number: int, name: str) -> bool:
    """Tell whether a class day may have one strand more."""
    rule = next(strand for strand in problem.strands if strand.id == name)
    if name in days[number] or number not in problem.list_open_days(rule):
        return False
    checks = problem.checks if problem.days[number].is_retest else ()
    taken = sum(each not in checks for each in days[number])
    if name not in checks and taken >= problem.count_places(number):
        return False
    return all(
        sum(name in days[day] for day in limit.days) < limit.most
        for limit in problem.limits
        if limit.strand_id == name and number in limit.days
    )


def _list_checks(problem: WeeksProblem, number: int) -> list[str]:
    return list(problem.checks) if problem.days[number].is_retest else []


def _sort(problem: WeeksProblem, days: Sequence[Sequence[str]]) -> tuple[tuple[str, ...], ...]:
    order = [strand.id for strand in problem.strands]
    return tuple(tuple(sorted(here, key=order.index)) for here in days)


def _count_wanted(problem: WeeksProblem, days: _Days, ranks: Ranks) -> Counter[str]:
    """Count for each strand the lessons that wait behind what people could do in it now."""
    so_far = follow(problem, [*days, [strand.id for strand in problem.strands]], ranks)
    wanted: Counter[str] = Counter()
    for person, way in problem.ways.items():
        now = [turn for turn in so_far.turns[person] if turn.day == len(days)]
        for turn in now:
            behind = {turn.lesson_id}
            for step in way.steps:
                if behind.intersection(step.after):
                    behind.add(step.lesson_id)
            wanted[turn.strand_id] += len(behind)
    return wanted


def _list_changed(problem: WeeksProblem, strands: Sequence[Sequence[str]]) -> Iterator[_Days]:
    """Yield schedules that differ in one strand of one day, later days first."""
    for number in reversed(range(len(strands))):
        checks = _list_checks(problem, number)
        for out in ("", *(each for each in strands[number] if each not in checks)):
            for rule in problem.strands:
                days = [list(here) for here in strands]
                days[number] = [each for each in days[number] if each != out]
                if rule.id != out and may_add(problem, days, number, rule.id):
                    days[number].append(rule.id)
                    yield days
