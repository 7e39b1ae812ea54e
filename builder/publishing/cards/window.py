"""Jobs given out a few at a time, so that memory doesn't grow with their number."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from typing import Generic, TypeVar

from builder.errors import BuilderError
from builder.work.lone_tries import JobLostError

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


@dataclass(frozen=True, slots=True)
class Loss:
    """What stands in place of a result that was lost."""

    reason: str


def run_in_turn(
    pool: Executor,
    jobs: Iterable[Job[Label, Argument, Result]],
    most_ahead: int = _MOST_AHEAD,
    on_loss: Callable[[Label, str], Result] | None = None,
) -> Iterator[tuple[Label, Result]]:
    """Give out the first jobs now; return each job's label and result in the order of the jobs.

    They are made as they go: ``most_ahead`` are those whose arguments and results are in memory
    at once. A job that goes beyond its time or memory has the result of ``on_loss``, which is told
    its label and why; without that it is a BuilderError, as a cluster's lost workers are.
    """
    waiting = iter(jobs)
    ahead = deque(_give_out(pool, job) for job in islice(waiting, most_ahead))
    return _collect(pool, waiting, ahead, on_loss)


def _collect(
    pool: Executor,
    waiting: Iterator[Job[Label, Argument, Result]],
    ahead: deque[tuple[Label, Future[Result]]],
    on_loss: Callable[[Label, str], Result] | None,
) -> Iterator[tuple[Label, Result]]:
    while ahead:
        label, future = ahead.popleft()
        with _told_of_losses():
            reason = find_loss(future) if on_loss else ""
            result = on_loss(label, reason) if on_loss and reason else future.result()
        yield label, result
        ahead.extend(_give_out(pool, job) for job in islice(waiting, 1))


def find_loss(future: Future[Result]) -> str:
    """Wait for a job; say why where it took more time or memory than a job may, else nothing."""
    error = future.exception()
    if isinstance(error, MemoryError):
        return "it needs more memory than a print may have"
    return str(error) if isinstance(error, JobLostError) else ""


def run_one_by_one(
    pool: Executor,
    run: Callable[[tuple[Argument, ...]], tuple[Result, ...]],
    lost: Sequence[Argument],
    reason: str,
) -> tuple[Result | Loss, ...]:
    """Run the parts of a lost job each by itself, so that only those at fault are lost."""
    if len(lost) == 1:
        return (Loss(reason),)
    return tuple(_run_one(pool, run, each) for each in lost)


def _run_one(
    pool: Executor, run: Callable[[tuple[Argument, ...]], tuple[Result, ...]], argument: Argument
) -> Result | Loss:
    done = pool.submit(run, (argument,))
    reason = find_loss(done)
    return Loss(reason) if reason else done.result()[0]


def _give_out(pool: Executor, job: Job[Label, Argument, Result]) -> tuple[Label, Future[Result]]:
    with _told_of_losses():
        return job.label, pool.submit(job.run, job.argument)


@contextmanager
def _told_of_losses() -> Iterator[None]:
    try:
        yield
    except JobLostError as error:
        raise BuilderError(
            f"a part of the course was not printed: {error}",
            "see that enough memory is free, and shorten what is longest",
        ) from error
    except BrokenExecutor as error:
        raise BuilderError(
            "a worker process that prints cards was ended from outside",
            "see that enough memory is free, then run this again",
        ) from error
