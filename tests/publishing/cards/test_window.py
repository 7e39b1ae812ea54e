"""Jobs are made as they go, and come back in their order."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

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
