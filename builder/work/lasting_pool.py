"""An executor whose workers are replaced: where they broke, and before they grow.

The system's own way of replacing workers one by one comes to a standstill in many versions of
Python (cpython issue 115634). So all of them go together, when nothing is in their hands.
"""

from collections import deque
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future, wait
from dataclasses import dataclass, field
from functools import partial
from threading import Lock
from typing import Any


@dataclass(frozen=True, slots=True)
class _Job:
    """What is to be run, and what its caller waits for."""

    run: Callable[[], Any]
    outer: Future[Any] = field(default_factory=Future)
    is_last_try: bool = False


@dataclass(slots=True, eq=False)
class _Crew:
    """Workers that begin and end together; their numbers change only under the pool's lock."""

    pool: Executor
    places: int
    """How many more jobs they may be given."""
    busy: int = 0
    """How many jobs they were given that have not come to an end."""


class LastingPool(Executor):
    """An executor that begins anew where it broke, so that each job has two tries.

    It also begins anew after ``most_jobs`` jobs: libraries of the system keep a little of all that
    they were given, and a worker that lives on grows. Jobs beyond wait here until the others are
    done.
    """

    def __init__(self, start: Callable[[], Executor], most_jobs: int) -> None:
        self._start = start
        self._most_jobs = most_jobs
        self._lock = Lock()
        self._crew = _Crew(start(), most_jobs)
        self._waiting: deque[_Job] = deque()
        self._lost: list[_Crew] = []
        """Kept to the end: since Python 3.12 an executor that goes away, or is shut down, while it
        tells of its lost jobs waits for ever for a lock that it holds itself."""
        self._is_closed = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Give a job to the workers."""
        job = _Job(partial(fn, *args, **kwargs))
        if not self._give(job):
            raise RuntimeError("the pool is closed")
        return job.outer

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """End the workers; none is started after that."""
        if wait and not cancel_futures:
            self._wait()
        with self._lock:
            self._is_closed = True
            pool, waiting = self._crew.pool, tuple(self._waiting)
            self._waiting.clear()
        for job in waiting:
            _cancel(job.outer)
        pool.shutdown(wait, cancel_futures=cancel_futures)
        for crew in tuple(self._lost):
            crew.pool.shutdown(wait)

    def _wait(self) -> None:
        """Wait for jobs that no worker has yet."""
        while True:
            with self._lock:
                waiting = [job.outer for job in self._waiting]
            if not waiting:
                return
            wait(waiting)

    def _give(self, job: _Job) -> bool:
        """Give a job to workers, now or when the others are done; False where all are closed.

        Never under the lock: an executor calls back while it holds one of its own.
        """
        while True:
            with self._lock:
                if self._is_closed:
                    return False
                crew = self._crew
                if not crew.places:
                    self._waiting.append(job)
                    return True
                crew.places -= 1
                crew.busy += 1
            try:
                inner = crew.pool.submit(job.run)
            except BrokenExecutor:  # it broke over another job, which may not have been told yet
                self._replace(crew, is_lost=True)
            except RuntimeError:  # it was closed at this very moment
                return False
            except OSError as error:  # no new process can be had; a caller may be another job's end
                _fail(job.outer, error)
                return True
            else:
                inner.add_done_callback(partial(self._end, job, crew))
                return True

    def _end(self, job: _Job, crew: _Crew, done: Future[Any]) -> None:
        is_lost = not done.cancelled() and isinstance(done.exception(), BrokenExecutor)
        with self._lock:
            crew.busy -= 1
            is_spent = not (crew.places or crew.busy)
        if is_lost or is_spent:
            self._replace(crew, is_lost=is_lost)
        again = _Job(job.run, job.outer, is_last_try=True)
        if not is_lost or job.is_last_try or not self._give(again):
            hand_on(done, job.outer)

    def _replace(self, crew: _Crew, *, is_lost: bool) -> None:
        """Put new workers in the place of a crew, if it is there, and give them what waits."""
        with self._lock:
            if self._is_closed or self._crew is not crew:
                return
            try:
                self._crew = _Crew(self._start(), self._most_jobs)
            except OSError:  # the system is at its end, and so is this pool
                self._is_closed = True
            if is_lost:
                self._lost.append(crew)
            waiting = tuple(self._waiting)
            self._waiting.clear()
        if not is_lost:
            crew.pool.shutdown(wait=False)
        for job in waiting:
            if not self._give(job):
                _cancel(job.outer)


def hand_on(inner: Future[Any], outer: Future[Any], error: BaseException | None = None) -> None:
    """End a future as another one ended, or with an error in place of that one's."""
    if inner.cancelled() and error is None:
        _cancel(outer)
    elif not outer.set_running_or_notify_cancel():
        return
    elif found := error or inner.exception():
        outer.set_exception(found)
    else:
        outer.set_result(inner.result())


def _fail(outer: Future[Any], error: OSError) -> None:
    if outer.set_running_or_notify_cancel():
        outer.set_exception(error)


def _cancel(outer: Future[Any]) -> None:
    outer.cancel()
    outer.set_running_or_notify_cancel()
