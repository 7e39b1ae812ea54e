"""A Dask cluster on this machine, as a studio's engineer would start one on several."""

import logging
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from distributed import Client, LocalCluster


@contextmanager
def start_cluster(workers: int = 2) -> Iterator[str]:
    """Start worker processes with one thread each, and give the address of their scheduler."""
    log = logging.getLogger("distributed")
    log.setLevel(logging.CRITICAL)  # what it logs of a killed worker is what the tests are about
    settings: dict[str, Any] = {"threads_per_worker": 1, "processes": True}
    with _open(workers, settings) as cluster:
        yield cluster.scheduler_address


def _open(workers: int, settings: dict[str, Any]) -> LocalCluster:
    """Open a cluster in two tries: a scheduler once failed to start beside other tests."""
    try:
        return LocalCluster(n_workers=workers, dashboard_address=None, **settings)
    except RuntimeError:
        return LocalCluster(n_workers=workers, dashboard_address=None, **settings)


def find_pids(address: str) -> dict[str, int]:
    """Return the processes of the workers that are there now, by their addresses."""
    with Client(address, set_as_default=False) as client:
        found: dict[str, int] = client.run(os.getpid)
        return found


def find_loaded(address: str, module: str) -> set[bool]:
    """Return whether the workers have loaded a module: who has the engine has printed."""
    with Client(address, set_as_default=False) as client:
        return set(client.run(_has_loaded, module).values())


def _has_loaded(module: str) -> bool:
    return module in sys.modules


def find_busy(address: str) -> str:
    """Wait for a worker that has a job, and return its address."""
    with Client(address, set_as_default=False) as client:
        while True:
            busy = [worker for worker, jobs in client.processing().items() if jobs]
            if busy:
                return busy[0]
