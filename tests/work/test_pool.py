"""Worker processes."""

import os
import tempfile
from concurrent.futures import Future
from pathlib import Path

import pytest

from builder.work.pool import open_pool


def leave_a_file(name: str) -> tuple[str, int]:
    path = Path(tempfile.mkdtemp()) / name
    path.write_text(name)
    return str(path), os.getpid()


def test_workers_are_other_processes_and_their_leavings_go_with_the_pool() -> None:
    with open_pool(1) as pool:
        path, worker = pool.submit(leave_a_file, "left.txt").result()
        assert Path(path).is_file()
    assert worker != os.getpid()
    assert not Path(path).exists()


def fail_with_jobs_waiting(waiting: list[Future[tuple[str, int]]]) -> None:
    with open_pool(1) as pool:
        waiting += [pool.submit(leave_a_file, "left.txt") for _ in range(200)]
        raise ZeroDivisionError


def test_an_error_inside_the_pool_comes_out_and_waiting_jobs_are_dropped() -> None:
    waiting: list[Future[tuple[str, int]]] = []
    with pytest.raises(ZeroDivisionError):
        fail_with_jobs_waiting(waiting)
    assert any(job.cancelled() for job in waiting)
