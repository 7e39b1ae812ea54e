"""Jobs given out a few at a time, so that memory doesn't grow with their number."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import BrokenExecutor, Executor, Future
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from typing import Generic, TypeVar

from builder.errors import BuilderError

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
    """Give out the first jobs now; return each job's label and result in the order of the jobs.

    They are made as they go: ``most_ahead`` are those whose arguments and results are in memory
    at once. Raises BuilderError where a worker was lost with a job and with its second try.
    """
    waiting = iter(jobs)
    ahead = deque(_give_out(pool, job) for job in islice(waiting, most_ahead))
    return _collect(pool, waiting, ahead)


def _collect(
    pool: Executor,
    waiting: Iterator[Job[Label, Argument, Result]],
    ahead: deque[tuple[Label, Future[Result]]],
) -> Iterator[tuple[Label, Result]]:
    while ahead:
        label, future = ahead.popleft()
        with _told_of_losses():
            result = future.result()
        yield label, result
        ahead.extend(_give_out(pool, job) for job in islice(waiting, 1))


def _give_out(pool: Executor, job: Job[Label, Argument, Result]) -> tuple[Label, Future[Result]]:
    with _told_of_losses():
        return job.label, pool.submit(job.run, job.argument)


@contextmanager
def _told_of_losses() -> Iterator[None]:
    try:
        yield
    except BrokenExecutor as error:
        raise BuilderError(
            "a worker process that prints cards was ended from outside",
            "see that enough memory is free, then run this again",
        ) from error
