"""A cluster's workers: the same tool as here, lines that nobody reads, losses in plain words."""

import os
from concurrent.futures import BrokenExecutor, CancelledError, Future

import pytest

from builder.errors import BuilderError
from builder.work.cluster import open_workers, refuse_open_lines, run_if_same
from builder.work.press import digest_press
from tests.local_cluster import start_cluster


@pytest.mark.parametrize(
    "address", ["tcp://127.0.0.1:8786", "localhost:8786", "tcp://[::1]:8786", "tls://a.example:1"]
)
def test_own_machines_and_encrypted_lines_may_carry_what_is_private(address: str) -> None:
    refuse_open_lines((address,))


@pytest.mark.parametrize("address", ["tcp://10.0.0.7:8786", "a.example:8786", "ws://a.example"])
def test_open_lines_to_other_machines_may_not(address: str) -> None:
    with pytest.raises(BuilderError, match="not encrypted; have the cluster speak TLS"):
        refuse_open_lines(("tls://a.example:1", address))


def test_a_worker_with_another_tool_runs_nothing() -> None:
    assert run_if_same(digest_press(), divmod, 7, 2) == (3, 1)
    with pytest.raises(BuilderError, match="another tempoleaf than here"):
        run_if_same("another", divmod, 7, 2)


def test_without_an_address_the_workers_are_processes_of_this_machine() -> None:
    with open_workers() as pool:
        assert pool.submit(os.getpid).result() != os.getpid()


def fail() -> None:
    raise BuilderError("it is so", "do this")


def test_errors_come_back_and_a_lost_cluster_is_told_in_the_librarys_own_terms() -> None:
    with start_cluster(1) as address, open_workers(address) as pool:
        with pytest.raises(BuilderError, match="it is so; do this"):
            pool.submit(fail).result()
        with pytest.raises(BrokenExecutor, match="workers of the cluster were lost"):
            pool.submit(os._exit, 3).result()


def give_jobs_and_fail(address: str, waiting: list[Future[None]]) -> None:
    with open_workers(address) as pool:
        waiting += [pool.submit(_wait, number) for number in range(3)]
        raise ZeroDivisionError


def test_jobs_are_called_off_when_the_run_ends_in_an_error() -> None:
    waiting: list[Future[None]] = []
    with start_cluster(1) as address:
        with pytest.raises(ZeroDivisionError):
            give_jobs_and_fail(address, waiting)
        with pytest.raises(CancelledError):
            waiting[-1].result()


def _wait(number: int) -> None:
    import time  # noqa: PLC0415  # in the worker alone

    time.sleep(0.2 + number / 100)
