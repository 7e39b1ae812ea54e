"""Jobs are made as they go, and come back in their order."""

from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Future, ThreadPoolExecutor

import pytest

from builder.errors import BuilderError
from builder.publishing.cards.window import Job, run_in_turn


def test_no_more_jobs_are_in_memory_than_wanted_and_all_come_back_in_turn() -> None:
    made: list[int] = []

    def make_jobs() -> Iterator[Job[int, int, int]]:
        for number in range(9):
            made.append(number)
            yield Job(number, abs, -number)

    with ThreadPoolExecutor(2) as pool:
        results = []
        for place, result in enumerate(run_in_turn(pool, make_jobs(), 3)):
            assert len(made) <= place + 3
            results.append(result)
    assert results == [(number, number) for number in range(9)]


def test_the_first_jobs_run_before_anybody_asks_for_results() -> None:
    done: list[int] = []
    with ThreadPoolExecutor(1) as pool:
        in_turn = run_in_turn(pool, (Job(number, done.append, number) for number in range(5)), 2)
    assert done == [0, 1]
    label, _ = next(in_turn)
    assert label == 0


class LosingExecutor(ThreadPoolExecutor):
    """Loses each job."""

    def submit(self, *_job: object, **_more: object) -> Future[object]:  # type: ignore[override]  # takes all
        lost: Future[object] = Future()
        lost.set_exception(BrokenExecutor("a process was ended"))
        return lost


def test_a_lost_worker_is_told_with_a_cure_whatever_it_worked_at() -> None:
    with LosingExecutor(1) as pool, pytest.raises(BuilderError, match="enough memory is free"):
        list(run_in_turn(pool, [Job(1, abs, 1)]))
