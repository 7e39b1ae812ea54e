"""Jobs that may have ended their workers: each is tried again with workers to itself."""

import time
from collections import deque
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future
from dataclasses import dataclass, field
from functools import partial
from threading import Lock
from typing import Any

from builder.work.bounded import word_loss


class JobLostError(BrokenExecutor):
    """A job ended its worker twice, the second time when it had one to itself."""


@dataclass(frozen=True, slots=True, eq=False)
class Job:
    """What is to be run, and what its caller waits for."""

    run: Callable[[], Any]
    outer: Future[Any] = field(default_factory=Future)


class LoneTries:
    """Tries jobs one after another, each in workers of its own; who ends them too is lost."""

    def __init__(self, start: Callable[[], Executor], seconds: float) -> None:
        self._start = start
        self._seconds = seconds
        self._lock = Lock()
        self._jobs: deque[Job] = deque()
        """The first is being tried, the others wait."""
        self._pools: list[Executor] = []
        """Kept to the end, as LastingPool keeps its lost crews."""
        self._is_closed = False

    def take(self, job: Job) -> bool:
        """Try a job now or when those before it are done; False where nothing is tried any more."""
        with self._lock:
            if self._is_closed:
                return False
            self._jobs.append(job)
            is_first = len(self._jobs) == 1
        if is_first:
            self._try(job)
        return True

    def list_outers(self) -> list[Future[Any]]:
        """Return what the callers of all jobs wait for that are not done."""
        with self._lock:
            return [job.outer for job in self._jobs]

    def close(self) -> None:
        """Call off the jobs that wait."""
        with self._lock:
            self._is_closed = True
            waiting = tuple(self._jobs)[1:]
        for job in waiting:
            cancel(job.outer)

    def shutdown(self, *, wait: bool) -> None:
        """End the workers."""
        for pool in tuple(self._pools):
            pool.shutdown(wait)

    def _try(self, job: Job) -> None:
        started = time.monotonic()
        try:
            pool = self._start()
            self._pools.append(pool)
            inner = pool.submit(job.run)
        except (OSError, BrokenExecutor) as error:
            self._go_on(job)
            fail(job.outer, error)
        else:
            inner.add_done_callback(partial(self._end, job, pool, started))

    def _end(self, job: Job, pool: Executor, started: float, done: Future[Any]) -> None:
        took_seconds = time.monotonic() - started
        is_lost = not done.cancelled() and isinstance(done.exception(), BrokenExecutor)
        if not is_lost:
            pool.shutdown(wait=False)
        self._go_on(job)
        error = JobLostError(word_loss(took_seconds, self._seconds)) if is_lost else None
        hand_on(done, job.outer, error)

    def _go_on(self, job: Job) -> None:
        """Take a job off the list, and try the next one."""
        with self._lock:
            self._jobs.remove(job)
            following = self._jobs[0] if self._jobs and not self._is_closed else None
        if following:
            self._try(following)


def hand_on(inner: Future[Any], outer: Future[Any], error: BaseException | None = None) -> None:
    """End a future as another one ended, or with an error in place of that one's."""
    if inner.cancelled() and error is None:
        cancel(outer)
    elif not outer.set_running_or_notify_cancel():
        return
    elif found := error or inner.exception():
        outer.set_exception(found)
    else:
        outer.set_result(inner.result())


def fail(outer: Future[Any], error: BaseException) -> None:
    """End a future with an error."""
    if outer.set_running_or_notify_cancel():
        outer.set_exception(error)


def cancel(outer: Future[Any]) -> None:
    """Call a future off, and tell those who wait for it."""
    outer.cancel()
    outer.set_running_or_notify_cancel()
