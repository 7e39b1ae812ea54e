"""Worker processes."""

import os
import signal
import tempfile
from concurrent.futures import BrokenExecutor, Future
from pathlib import Path

import pytest

from builder.work.pool import JOBS_A_WORKER, open_pool


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


def test_any_number_of_jobs_comes_to_its_end() -> None:
    """An executor that replaced its workers one by one stood still after two hundred jobs."""
    with open_pool(2) as pool:
        jobs = [pool.submit(abs, -number) for number in range(5 * JOBS_A_WORKER)]
        assert [job.result(timeout=60) for job in jobs] == list(range(5 * JOBS_A_WORKER))
        assert pool.submit(abs, -1).result(timeout=60) == 1


def test_workers_are_replaced_before_they_grow() -> None:
    with open_pool(1) as pool:
        jobs = [pool.submit(os.getpid) for _ in range(2 * JOBS_A_WORKER)]
        workers = [job.result(timeout=60) for job in jobs]
        assert len(set(workers[:JOBS_A_WORKER])) == len(set(workers[JOBS_A_WORKER:])) == 1
        assert workers[0] != workers[-1]
        assert pool.submit(os.getpid).result(timeout=60) not in workers


def test_who_closes_the_pool_waits_for_all_jobs() -> None:
    with open_pool(1) as pool:
        jobs = [pool.submit(abs, -number) for number in range(3 * JOBS_A_WORKER)]
    assert [job.result(timeout=0) for job in jobs] == list(range(3 * JOBS_A_WORKER))


def test_a_closed_pool_takes_no_job() -> None:
    with open_pool(1) as pool:
        pass
    with pytest.raises(RuntimeError, match="closed"):
        pool.submit(abs, -1)


def test_an_error_inside_the_pool_comes_out_and_waiting_jobs_are_dropped() -> None:
    waiting: list[Future[tuple[str, int]]] = []
    with pytest.raises(ZeroDivisionError):
        fail_with_jobs_waiting(waiting)
    assert any(job.cancelled() for job in waiting)


def end_once(folder: str) -> str:
    """End the worker from outside, as a system does that runs out of memory; the next one works."""
    mark = Path(folder, "was-here")
    if not mark.exists():
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return mark.name


def end_always() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def test_a_job_that_lost_its_worker_runs_once_more_and_so_do_those_beside_it(
    tmp_path: Path,
) -> None:
    with open_pool(1) as pool:
        jobs = [pool.submit(end_once, str(tmp_path)), *(pool.submit(os.getpid) for _ in range(3))]
        assert jobs[0].result() == "was-here"
        assert len({job.result() for job in jobs[2:]}) == 1
        assert isinstance(jobs[1].result(), int)  # the system may have handed it out already
        assert pool.submit(os.getpid).result() == jobs[-1].result()


def test_no_job_is_lost_where_a_worker_ends_while_others_wait(tmp_path: Path) -> None:
    with open_pool(1) as pool:
        jobs = [pool.submit(abs, -number) for number in range(JOBS_A_WORKER // 2)]
        jobs.append(pool.submit(end_once, str(tmp_path)))
        jobs += [pool.submit(abs, -number) for number in range(2 * JOBS_A_WORKER)]
        ended = [job.result(timeout=60) for job in jobs]
    middle = JOBS_A_WORKER // 2
    assert ended[:middle] == list(range(middle))
    assert ended[middle:] == ["was-here", *range(2 * JOBS_A_WORKER)]


def test_a_job_that_ends_its_worker_twice_ends_as_broken(tmp_path: Path) -> None:
    with open_pool(1) as pool:
        with pytest.raises(BrokenExecutor):
            pool.submit(end_always).result()
        assert pool.submit(end_once, str(tmp_path)).result() == "was-here"
