"""How long class plans take, and how good they are: `python -m tests.bench.class_plan`.

No test, because times depend on the machine; run it by hand while nothing else runs.
"""

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from builder.planning.class_plan.planned import Planner
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.replan import replan
from builder.planning.class_plan.search import Found, find_plan
from builder.records.classes_folder import read_classes
from builder.records.record_folder import read_records
from tests.planning.class_plan.problems import make_large_problem
from tests.planning.starter import ROOT, read_starter

SEEDS = 10
_LINE = "{:24} {:>8} {:>7} {:>7} {:>7} {:>9}"


def list_problems(seeds: int) -> Iterator[tuple[str, ClassProblem]]:
    """Yield large random classes, then those of the demo."""
    for seed in range(1, seeds + 1):
        yield f"12 x 60 x 10, seed {seed}", make_large_problem(seed)
    course, folder = read_starter(), ROOT / "demo_program"
    records = read_records(folder, course)
    for order in read_classes(folder, records.known)[0]:
        yield order.title, Planner(course, records.program, order).problem


def time_run(run: Callable[[], Found | None]) -> tuple[float, Found | None]:
    """Return the seconds of a run, and what it found."""
    start = time.perf_counter()
    found = run()
    return time.perf_counter() - start, found


def leave_out_last(problem: ClassProblem) -> ClassProblem:
    """Return the problem without its last person."""
    people = problem.people[:-1]
    return replace(problem, people=people, versions={who: problem.versions[who] for who in people})


def list_lines(seeds: int) -> Iterator[str]:
    """Yield a line for each class: seconds, points, bound, proven, and seconds of a replan."""
    yield _LINE.format("class", "seconds", "points", "bound", "proven", "replan s")
    for name, problem in list_problems(seeds):
        seconds, found = time_run(partial(find_plan, problem))
        if found is None:
            yield _LINE.format(name, f"{seconds:.2f}", "none", "", "", "")
            continue
        again, _ = time_run(partial(replan, leave_out_last(problem), found.plan))
        proven = "yes" if found.is_proven else "no"
        numbers = (f"{seconds:.2f}", found.score.points, found.bound, proven, f"{again:.2f}")
        yield _LINE.format(name, *numbers)


if __name__ == "__main__":
    for line in list_lines(int(sys.argv[1]) if sys.argv[1:] else SEEDS):
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
