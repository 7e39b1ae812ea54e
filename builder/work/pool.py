"""Worker processes that leave nothing behind."""

import tempfile
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context

_JOBS_PER_WORKER = 50
"""A worker is replaced after so many jobs, and its memory with it."""


@contextmanager
def open_pool(workers: int = 2) -> Iterator[Executor]:
    """Open worker processes; none starts before the first job.

    Workers begin afresh (spawn), so they work alike on every system, and share a folder for
    temporary files that goes when the pool closes.
    """
    with (
        tempfile.TemporaryDirectory(prefix="tempoleaf-") as scratch,
        ProcessPoolExecutor(
            workers,
            mp_context=get_context("spawn"),
            initializer=_use_scratch,
            initargs=(scratch,),
            max_tasks_per_child=_JOBS_PER_WORKER,
        ) as pool,
    ):
        try:
            yield pool
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise


def _use_scratch(folder: str) -> None:
    tempfile.tempdir = folder
