"""Jobs given out a few at a time, so that memory doesn't grow with their number."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from dataclasses import dataclass
from typing import Generic, TypeVar

Label = TypeVar("Label")
Argument = TypeVar("Argument")
Result = TypeVar("Result")

_MOST_AHEAD = 64
"""Jobs that are given out and not yet done: enough for the workers of a cluster."""


@dataclass(frozen=True, slots=True)
class Job(Generic[Label, Argument, Result]):
    """What a worker is to run, and what it is for."""

    label: Label
    run: Callable[[Argument], Result]
    argument: Argument


def run_in_turn(
    pool: Executor, jobs: Iterable[Job[Label, Argument, Result]], most_ahead: int = _MOST_AHEAD
) -> Iterator[tuple[Label, Result]]:
    """Yield each job's label and result in the order of the jobs, which are made as they go.

    ``most_ahead`` are the jobs whose arguments and results are in memory at once.
    """
    ahead: deque[tuple[Label, Future[Result]]] = deque()
    for job in jobs:
        ahead.append((job.label, pool.submit(job.run, job.argument)))
        if len(ahead) >= most_ahead:
            label, future = ahead.popleft()
            yield label, future.result()
    for label, future in ahead:
        yield label, future.result()
