"""An executor whose workers are replaced: where they broke, and before they grow.

The system's own way of replacing workers one by one comes to a standstill in many versions of
Python (cpython issue 115634). So all of them go together, when nothing is in their hands.
"""

from collections import deque
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future, wait
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from threading import Lock
from typing import Any

from builder.work.bounded import run_within
from builder.work.lone_tries import Job, LoneTries, cancel, fail, hand_on


@dataclass(slots=True, eq=False)
class _Crew:
    """Workers that begin and end together; their numbers change only under the pool's lock."""

    pool: Executor
    places: int
    """How many more jobs they may be given."""
    jobs: dict[Job, None] = field(default_factory=dict)
    """What they were given and has not come to an end, in order."""
    suspects: frozenset[Job] = frozenset()
    """Where they were lost: what they may have been at."""


class LastingPool(Executor):
    """An executor that begins anew where it broke, so that no job is lost over another one.

    What a lost crew may have been at is tried again job by job, each with a worker to itself: who
    ends that one too is lost. All others are given to new workers. ``most_running`` is how many
    jobs a crew can have been at; of those that were not done, these are the first it was given.
    A job that takes longer than ``seconds`` ends its worker; 0 lets it take all the time it wants.

    It also begins anew after ``most_jobs`` jobs: libraries of the system keep a little of all that
    they were given, and a worker that lives on grows. Jobs beyond wait here until the others are
    done.
    """

    def __init__(
        self,
        start: Callable[[], Executor],
        most_jobs: int,
        *,
        most_running: int = 1,
        seconds: float = 0,
    ) -> None:
        self._start = start
        self._most_jobs = most_jobs
        self._most_running = most_running
        self._seconds = seconds
        self._lock = Lock()
        self._crew = _Crew(start(), most_jobs)
        self._waiting: deque[Job] = deque()
        self._alone = LoneTries(start, seconds)
        self._lost: list[_Crew] = []
        """Kept to the end: since Python 3.12 an executor that goes away, or is shut down, while it
        tells of its lost jobs waits for ever for a lock that it holds itself."""
        self._is_closed = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Give a job to the workers."""
        run = partial(fn, *args, **kwargs)
        job = Job(partial(run_within, self._seconds, run) if self._seconds else run)
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
        self._alone.close()
        for job in waiting:
            cancel(job.outer)
        pool.shutdown(wait, cancel_futures=cancel_futures)
        for crew in tuple(self._lost):
            crew.pool.shutdown(wait)
        self._alone.shutdown(wait=wait)

    def _wait(self) -> None:
        """Wait for jobs that no worker has yet."""
        while True:
            with self._lock:
                waiting = [job.outer for job in self._waiting]
            waiting += self._alone.list_outers()
            if not waiting:
                return
            wait(waiting)

    def _give(self, job: Job) -> bool:
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
                crew.jobs[job] = None
            try:
                inner = crew.pool.submit(job.run)
            except BrokenExecutor:  # it broke over another job, which may not have been told yet
                crew.jobs.pop(job, None)
                self._replace(crew, is_lost=True)
            except RuntimeError:  # it was closed at this very moment
                return False
            except OSError as error:  # no new process can be had; a caller may be another job's end
                fail(job.outer, error)
                return True
            else:
                inner.add_done_callback(partial(self._end, job, crew))
                return True

    def _end(self, job: Job, crew: _Crew, done: Future[Any]) -> None:
        is_lost = not done.cancelled() and isinstance(done.exception(), BrokenExecutor)
        with self._lock:
            if is_lost and not crew.suspects:
                crew.suspects = frozenset(islice(crew.jobs, self._most_running))
            crew.jobs.pop(job, None)
            is_spent = not (crew.places or crew.jobs)
        if is_lost or is_spent:
            self._replace(crew, is_lost=is_lost)
        if not is_lost or not (self._alone.take(job) if job in crew.suspects else self._give(job)):
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
                cancel(job.outer)
