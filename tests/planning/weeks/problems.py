"""Random problems of several weeks, the best schedule by trying all, and a judge of schedules."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import cache
from itertools import combinations, product
from random import Random

from hypothesis import strategies as st

from builder.planning.weeks.problem import ClassDay, Step, StrandRule, Way, WeeksProblem
from builder.planning.weeks.schedule import Schedule

FIRST = date(2026, 12, 1)
Worth = tuple[int, int, int]
Strands = tuple[tuple[str, ...], ...]


@st.composite
def ways(draw: st.DrawFn, strands: Sequence[str]) -> Way:
    steps: list[Step] = []
    for number in range(draw(st.integers(0, 4))):
        earlier = [step.lesson_id for step in steps]
        after = draw(st.lists(st.sampled_from(earlier), unique=True)) if earlier else []
        strand = draw(st.sampled_from(strands))
        steps.append(Step(f"lesson-{number}", strand, tuple(after), draw(st.integers(1, 2))))
    return Way(tuple(steps))


@st.composite
def small_problems(draw: st.DrawFn, *, most_days: int = 4, more: int = 0) -> WeeksProblem:
    """Draw a problem so small that every schedule can be tried."""
    gaps = draw(st.lists(st.sampled_from([1, 1, 2, 3, 7]), min_size=2, max_size=most_days))
    days = [FIRST + timedelta(days=sum(gaps[:number])) for number in range(len(gaps))]
    weeks = [(day - FIRST).days // 7 + 1 for day in days]
    later = [(weeks[-1] + number, days[-1] + timedelta(days=7 * number)) for number in (1, 2)]
    rules = (
        StrandRule("checks", is_check=True, is_worked_on=draw(st.booleans())),
        StrandRule("breath"),
        StrandRule(
            "brace", needs_day_between=True, most_days_a_week=draw(st.sampled_from([1, 2, 3]))
        ),
    )
    names = [rule.id for rule in rules]
    return WeeksProblem(
        days=tuple(
            ClassDay(day, week, draw(st.booleans())) for day, week in zip(days, weeks, strict=True)
        ),
        places=draw(st.sampled_from([1, 1, 2])),
        strands=rules,
        ways={f"C{who}": draw(ways(names)) for who in range(1, draw(st.integers(1, 3)) + 1)},
        later=tuple(ClassDay(day, week) for week, day in later[:more]),
    )


def find_faults(problem: WeeksProblem, schedule: Schedule) -> list[str]:
    """Judge a schedule by its own reckoning of the rules, which shares no code with the search."""
    return [*judge_strands(problem, schedule.strands), *_judge_turns(problem, schedule)]


def judge_strands(problem: WeeksProblem, strands: Sequence[Collection[str]]) -> list[str]:
    """Judge which strands come when: places, days of rest, and checks."""
    faults = []
    rules = {rule.id: rule for rule in problem.strands}
    for day, here in zip(problem.days, strands, strict=True):
        checks = {name for name in here if rules[name].is_check}
        besides = len(here) - (len(checks) if day.is_retest else 0)
        if besides > max(0, problem.places - int(day.is_retest)):
            faults.append(f"{day.day} is too full")
        if not day.is_retest and any(not rules[name].is_worked_on for name in here):
            faults.append(f"{day.day} has checks that are for retests")
    for rule in problem.strands:
        on = [day.day for day, here in zip(problem.days, strands, strict=True) if rule.id in here]
        if rule.needs_day_between and any(day + timedelta(days=1) in on for day in on):
            faults.append(f"{rule.id} comes on two days in a row")
        for day in on:
            window = [each for each in on if day <= each < day + timedelta(days=7)]
            if rule.most_days_a_week is not None and len(window) > rule.most_days_a_week:
                faults.append(f"{rule.id} comes too often from {day} on")
    return faults


def _judge_turns(problem: WeeksProblem, schedule: Schedule) -> Iterator[str]:
    for person, way in problem.ways.items():
        steps = {step.lesson_id: step for step in way.steps}
        done: dict[str, int] = {}
        for number, here in enumerate(schedule.strands):
            turns = [turn for turn in schedule.turns[person] if turn.day == number]
            used = [turn.strand_id for turn in turns]
            if len(set(used)) < len(used) or not set(used) <= set(here):
                yield f"{person} has strands {used} on day {number}"
            for turn in turns:
                step = steps[turn.lesson_id]
                if any(done.get(name, 0) < steps[name].classes for name in step.after):
                    yield f"{person} begins {step.lesson_id} too early"
                if done.get(step.lesson_id, 0) >= step.classes:
                    yield f"{person} is past {step.lesson_id}"
            for turn in turns:
                done[turn.lesson_id] = done.get(turn.lesson_id, 0) + 1
        is_through = way.is_open and all(done.get(s.lesson_id, 0) >= s.classes for s in way.steps)
        if is_through != (person in schedule.reached):
            yield f"{person} is said to reach the aim, or not to, and it isn't so"


def list_schedules(problem: WeeksProblem) -> Iterator[Strands]:
    """Yield every choice of strands that the judge lets pass."""
    names = [rule.id for rule in problem.strands]
    checks = [rule.id for rule in problem.strands if rule.is_check]
    choices = []
    for day in problem.days:
        fixed = checks if day.is_retest else []
        rest = [name for name in names if name not in fixed]
        sizes = range(max(0, problem.places - day.is_retest) + 1)
        choices.append([(*fixed, *some) for size in sizes for some in combinations(rest, size)])
    for strands in product(*choices):
        if not judge_strands(problem, strands):
            yield strands


def find_best_worth(problem: WeeksProblem) -> Worth:
    """Return the worth of a best schedule, found by trying every one."""
    return max(
        _add_up(find_best_way(way, strands) for way in problem.ways.values())
        for strands in list_schedules(problem)
    )


def can_all_reach(problem: WeeksProblem, people: Iterable[str]) -> bool:
    """Tell by trying every schedule whether some people can reach the aim by the same one."""
    wanted = [problem.ways[person] for person in people]
    return any(
        all(find_best_way(way, strands)[0] for way in wanted) for strands in list_schedules(problem)
    )


def _add_up(parts: Iterable[Worth]) -> Worth:
    reached, lessons, earliness = (sum(each) for each in zip(*parts, strict=True))
    return reached, lessons, earliness


@cache
def find_best_way(way: Way, strands: Strands) -> Worth:
    """Return the most that one person gets out of some strands, every order of lessons tried."""
    steps = way.steps

    @cache
    def go(day: int, left: tuple[int, ...]) -> Worth:
        if day == len(strands):
            return (int(way.is_open and not any(left)), 0, 0)
        ready = {step.lesson_id for step, rest in zip(steps, left, strict=True) if not rest}
        options: list[list[int | None]] = []
        for name in strands[day]:
            opened = [
                number
                for number, step in enumerate(steps)
                if step.strand_id == name and left[number] and ready >= set(step.after)
            ]
            options.append([None, *opened])
        results = []
        for chosen in product(*options):
            after = tuple(rest - (number in chosen) for number, rest in enumerate(left))
            won = sum(1 for old, new in zip(left, after, strict=True) if old and not new)
            rest = go(day + 1, after)
            results.append((rest[0], rest[1] + won, rest[2] + won * (len(strands) - day)))
        return max(results)

    return go(0, tuple(step.classes for step in steps))


def make_large_problem(seed: int, *, people: int = 12, days: int = 20) -> WeeksProblem:
    """Make a group whose people stand at different places of six strands."""
    random = Random(seed)  # noqa: S311  # no secret
    names = ("checks", "breath", "brace", "tempo", "load", "stretch")
    lessons = [(f"{name}-{level}", name) for name in names for level in range(4)]
    class_days = tuple(
        ClassDay(
            FIRST + timedelta(days=7 * (number // 2) + 4 * (number % 2)),
            number // 2 + 1,
            is_retest=number % 4 == 2,
        )
        for number in range(days)
    )
    return WeeksProblem(
        days=class_days,
        places=4,
        strands=tuple(
            StrandRule(
                name,
                is_check=name == "checks",
                needs_day_between=name == "brace",
                most_days_a_week=3 if name in ("brace", "load") else None,
            )
            for name in names
        ),
        ways={f"C{who:02}": _begin_somewhere(random, lessons) for who in range(1, people + 1)},
    )


def _begin_somewhere(random: Random, lessons: list[tuple[str, str]]) -> Way:
    needed = lessons[random.randrange(len(lessons) - 4) :]
    pace = random.choice((2, 2, 3))
    steps: list[Step] = []
    for name, strand in needed:
        same = [step.lesson_id for step in steps if step.strand_id == strand][-1:]
        other = [step.lesson_id for step in steps if step.strand_id != strand][-5:-4]
        after = tuple(dict.fromkeys((*same, *other)))
        steps.append(Step(name, strand, after, 1 if strand == "checks" else pace))
    return Way(tuple(steps))
