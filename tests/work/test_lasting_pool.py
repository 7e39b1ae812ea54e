"""A pool that begins anew: whatever happens to its workers, every job comes to an end."""

from concurrent.futures import BrokenExecutor, CancelledError, Executor, ThreadPoolExecutor
from threading import Event

import pytest

from builder.work.lasting_pool import LastingPool

MOST = 4


def count_starts(starts: list[Executor], most: int = 99) -> LastingPool:
    """Open a pool of single threads that can be started so many times."""

    def start() -> Executor:
        if len(starts) == most:
            raise OSError("no more workers can be had")
        starts.append(ThreadPoolExecutor(1))
        return starts[-1]

    return LastingPool(start, MOST)


def test_workers_begin_anew_after_so_many_jobs_and_not_before_the_last_is_done() -> None:
    starts: list[Executor] = []
    go_on = Event()
    with count_starts(starts) as pool:
        jobs = [pool.submit(go_on.wait, 60), *(pool.submit(int) for _ in range(2 * MOST))]
        assert len(starts) == 1
        go_on.set()
        assert [job.result(60) for job in jobs] == [True, *[0] * 2 * MOST]
    assert len(starts) == 3


def test_where_no_new_workers_can_be_had_nobody_waits_for_ever() -> None:
    go_on = Event()
    pool = count_starts([], most=1)
    jobs = [pool.submit(go_on.wait, 60), *(pool.submit(int) for _ in range(MOST))]
    go_on.set()
    assert jobs[MOST - 1].result(60) == 0
    with pytest.raises(CancelledError):
        jobs[MOST].result(60)
    with pytest.raises(RuntimeError, match="closed"):
        pool.submit(int)


def test_jobs_that_wait_are_called_off_with_the_others() -> None:
    go_on = Event()
    pool = count_starts([])
    jobs = [pool.submit(go_on.wait, 60), *(pool.submit(int) for _ in range(2 * MOST))]
    pool.shutdown(wait=False, cancel_futures=True)
    go_on.set()
    assert jobs[0].result(60)
    assert all(job.cancelled() for job in jobs[1:])


def break_off() -> None:
    raise BrokenExecutor("lost")


def test_a_job_has_two_tries_with_two_crews() -> None:
    starts: list[Executor] = []
    with count_starts(starts) as pool, pytest.raises(BrokenExecutor):
        pool.submit(break_off).result(60)
    assert len(starts) == 3
