"""Worker processes that leave nothing behind, and come again once when they are ended."""

import os
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from threading import Lock
from typing import Any

_MOST_WORKERS = 61
"""What Windows can wait for at once, by the documentation of concurrent.futures."""


@contextmanager
def open_pool(workers: int = 0) -> Iterator[Executor]:
    """Open worker processes, one for each core if no number is given; they start with the jobs.

    Workers begin afresh (spawn), so they work alike on every system, and share a folder for
    temporary files that goes when the pool closes. When the system ends one, as it does where
    memory runs out, each job that was lost with it runs once more, in new processes; after that
    its result is a BrokenExecutor. Workers stay until the pool closes: executors that replace
    them after some jobs come to a standstill in many versions of Python (cpython issue 115634).
    """
    with (
        tempfile.TemporaryDirectory(prefix="tempoleaf-") as scratch,
        _LastingPool(lambda: _start(workers or count_cores(), scratch)) as pool,
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


def _start(workers: int, scratch: str) -> Executor:
    return ProcessPoolExecutor(
        workers,
        mp_context=get_context("spawn"),
        initializer=_use_scratch,
        initargs=(scratch,),
    )


def _use_scratch(folder: str) -> None:
    tempfile.tempdir = folder


def hand_on(inner: Future[Any], outer: Future[Any], error: BaseException | None = None) -> None:
    """End a future as another one ended, or with an error in place of that one's."""
    if inner.cancelled() and error is None:
        outer.cancel()
        outer.set_running_or_notify_cancel()
    elif not outer.set_running_or_notify_cancel():
        return
    elif found := error or inner.exception():
        outer.set_exception(found)
    else:
        outer.set_result(inner.result())


class _LastingPool(Executor):
    """An executor that is started anew where it broke, so that each job has two tries."""

    def __init__(self, start: Callable[[], Executor]) -> None:
        self._start = start
        self._pool = start()
        self._lock = Lock()
        self._is_closed = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Give a job to the workers."""
        outer: Future[Any] = Future()
        self._try(outer, lambda pool: pool.submit(fn, *args, **kwargs), is_last=False)
        return outer

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """End the workers; none is started after that."""
        with self._lock:
            self._is_closed = True
            pool = self._pool
        pool.shutdown(wait, cancel_futures=cancel_futures)

    def _try(
        self, outer: Future[Any], submit: Callable[[Executor], Future[Any]], *, is_last: bool
    ) -> None:
        pool, inner = self._submit(submit)

        def end(done: Future[Any]) -> None:
            is_lost = not done.cancelled() and isinstance(done.exception(), BrokenExecutor)
            if is_lost and not is_last and self._renew(pool):
                self._try(outer, submit, is_last=True)
            else:
                hand_on(done, outer)

        inner.add_done_callback(end)

    def _submit(self, submit: Callable[[Executor], Future[Any]]) -> tuple[Executor, Future[Any]]:
        pool = self._pool
        try:
            return pool, submit(pool)
        except BrokenExecutor:  # it broke over another job, which may not have been told yet
            if not self._renew(pool):
                raise
        return self._pool, submit(self._pool)

    def _renew(self, broken: Executor) -> bool:
        """Put new workers in the place of broken ones; tell whether there are any."""
        with self._lock:
            if not self._is_closed and self._pool is broken:
                broken.shutdown(wait=False)
                self._pool = self._start()
            return not self._is_closed
