"""Worker processes that leave nothing behind, and come again once when they are ended."""

import os
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import Any

from builder.input_limits import JOB_BYTES, JOB_SECONDS
from builder.work.bounded import bound_memory
from builder.work.lasting_pool import LastingPool
from builder.work.left import make_scratch
from builder.work.workers import deaf_to_the_keyboard, follow_parent

_MOST_WORKERS = 61
"""What Windows can wait for at once, by the documentation of concurrent.futures."""
JOBS_A_WORKER = 64
"""After so many, workers are replaced: the PDF engine keeps about 5 kB of each card, and starts
in half a second, while 64 batches of cards take a minute."""

_HANDED_AHEAD = 1
"""How many jobs the system's executor hands out that no worker has begun (concurrent.futures)."""


@contextmanager
def open_pool(
    workers: int = 0, seconds: float = JOB_SECONDS.most, most_bytes: int = JOB_BYTES.most
) -> Iterator[Executor]:
    """Open worker processes, one for each core if no number is given; they start with the jobs.

    Workers begin afresh (spawn), so they work alike on every system, and share a folder for
    temporary files that goes when the pool closes. A worker has no more memory than ``most_bytes``,
    where the system can bound it, and ends where a job takes longer than ``seconds``. When one
    ends, each job that was lost with it runs once more; who may have ended it is then alone, and
    a job that ends its worker again comes to a JobLostError. After ``JOBS_A_WORKER`` jobs for
    each, all begin anew, so that their memory doesn't grow with the number of jobs.
    """
    count = workers or count_cores()
    with (
        make_scratch() as scratch,
        LastingPool(
            lambda: _start(count, scratch, most_bytes),
            count * JOBS_A_WORKER,
            most_running=count + _HANDED_AHEAD,
            seconds=seconds,
        ) as pool,
    ):
        try:
            yield pool
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise


def count_cores() -> int:
    """Return on how many cores this process may work, which may be fewer than there are."""
    has_own = hasattr(os, "sched_getaffinity")
    cores = len(os.sched_getaffinity(0)) if has_own else os.cpu_count() or 1
    return min(cores, _MOST_WORKERS)


class _Processes(ProcessPoolExecutor):
    """Processes that start with the first job, and don't hear the keyboard."""

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Give a job to the processes."""
        with deaf_to_the_keyboard():
            return super().submit(fn, *args, **kwargs)


def _start(workers: int, scratch: str, most_bytes: int) -> Executor:
    return _Processes(
        workers,
        mp_context=get_context("spawn"),
        initializer=_settle,
        initargs=(scratch, most_bytes),
    )


def _settle(scratch: str, most_bytes: int) -> None:
    follow_parent()
    tempfile.tempdir = scratch
    bound_memory(most_bytes)
