"""Workers on other machines, by way of Dask. The only module that knows the library.

A job is a function of the tool with all that it needs: what it makes comes back, and whoever asked
writes it. No worker has the project's folder. Whatever a job holds goes over the network.
"""

import logging
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import BrokenExecutor, Executor, Future
from contextlib import contextmanager
from importlib import import_module
from ipaddress import ip_address
from typing import Any
from urllib.parse import urlsplit

from builder.errors import BuilderError
from builder.work.lone_tries import hand_on
from builder.work.pool import open_pool
from builder.work.press import digest_press

_WAIT_SECONDS = 10
_CLOSED = frozenset({"tls", "inproc"})
_SAME_TOOL = "install the same tempoleaf, lock, Python, Pango and HarfBuzz on every machine"


@contextmanager
def open_workers(address: str = "", *, is_private: bool = False) -> Iterator[Executor]:
    """Open the workers of a cluster, or of this machine where no address is given."""
    opened = open_cluster(address, is_private=is_private) if address else open_pool()
    with opened as pool:
        yield pool


@contextmanager
def open_cluster(address: str, *, is_private: bool = False) -> Iterator[Executor]:
    """Open the executor of a Dask cluster.

    Certificates for ``tls://`` are Dask's own settings. Raises BuilderError without the library,
    without an answer, without workers, where a worker has another tempoleaf, and where something
    private would travel without encryption.
    """
    engine = _open_engine()
    if is_private:
        refuse_open_lines((address,))
    with _connect(engine, address) as client:
        workers = _refuse_others(client)
        if is_private:
            refuse_open_lines(workers)
        with _ClusterPool(client.get_executor(pure=False), _list_losses(engine)) as pool:
            try:
                yield pool
            except BaseException:
                pool.shutdown(cancel_futures=True)
                raise


def refuse_open_lines(addresses: Iterable[str]) -> None:
    """Raise BuilderError where anybody on the way could read what goes to a cluster."""
    for address in addresses:
        place = urlsplit(address if "://" in address else f"tcp://{address}")
        if place.scheme not in _CLOSED and not _is_own_machine(place.hostname or ""):
            raise BuilderError(
                f'"{address}" is another machine, and what goes there is not encrypted',
                "have the cluster speak TLS, and give its address with tls://",
            )


def _is_own_machine(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:  # a name
        return host == "localhost"


def _open_engine() -> Any:  # the library has types for little
    try:
        return import_module("distributed")
    except ModuleNotFoundError as error:
        raise BuilderError(
            "a cluster needs a further package", 'install it with: pip install "tempoleaf[cluster]"'
        ) from error


@contextmanager
def _connect(engine: Any, address: str) -> Iterator[Any]:
    """Connect to a scheduler; what the library logs of lost workers is ours to tell."""
    log = logging.getLogger("distributed")
    before = log.level
    log.setLevel(logging.CRITICAL)
    try:
        try:
            client = engine.Client(address, timeout=_WAIT_SECONDS, set_as_default=False)
        except (OSError, TypeError, ValueError) as error:
            raise BuilderError(
                f'no cluster answers at "{address}" ({error})',
                "see that its scheduler runs, and give its address as it prints it",
            ) from error
        with client:
            yield client
    finally:
        log.setLevel(before)


def _refuse_others(client: Any) -> tuple[str, ...]:
    """Ask every worker for its tool; return where the workers are."""
    try:
        found: Mapping[str, str] = client.run(digest_press)
    except (ImportError, AttributeError) as error:
        raise BuilderError(
            f"a worker of the cluster has no tempoleaf, or an older one ({error})", _SAME_TOOL
        ) from error
    if not found:
        raise BuilderError("the cluster has no workers", "start some, then run this again")
    others = sorted(name for name, digest in found.items() if digest != digest_press())
    if others:
        raise _tell_another(", ".join(others))
    return tuple(sorted(found))


def _tell_another(where: str) -> BuilderError:
    return BuilderError(
        f"another tempoleaf than here, or another library under it, is at {where}",
        _SAME_TOOL,
    )


def _list_losses(engine: Any) -> tuple[type[BaseException], ...]:
    """Return the errors that say that workers were lost, not that a job went wrong."""
    return (
        engine.scheduler.KilledWorker,
        engine.client.FutureCancelledError,
        engine.comm.CommClosedError,
    )


def run_if_same(digest: str, job: Callable[..., Any], *given: Any) -> Any:
    """Run a job where this machine's tool is the one that is wanted: a worker may join late."""
    if digest_press() != digest:
        raise _tell_another("a worker that joined late")
    return job(*given)


class _ClusterPool(Executor):
    """Dask's own executor, in the terms of the standard library's errors and endings."""

    def __init__(self, pool: Executor, losses: tuple[type[BaseException], ...]) -> None:
        self._pool = pool
        self._losses = losses
        self._is_ending = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Give a job to the cluster; its lost workers end as a BrokenExecutor."""
        outer: Future[Any] = Future()
        inner = self._pool.submit(run_if_same, digest_press(), fn, *args, **kwargs)

        def end(done: Future[Any]) -> None:
            hand_on(done, outer, self._translate(done))

        inner.add_done_callback(end)
        return outer

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """End, or call off, what was given to the cluster; the cluster itself stays."""
        self._is_ending = True
        self._pool.shutdown(wait and not cancel_futures)

    def _translate(self, done: Future[Any]) -> BaseException | None:
        """Return the standard library's error for workers, or a cluster, that went away."""
        if done.cancelled():
            return None if self._is_ending else BrokenExecutor("the cluster was lost")
        found = done.exception()
        if not isinstance(found, self._losses):
            return None
        lost = BrokenExecutor(f"workers of the cluster were lost: {found}")
        lost.__cause__ = found
        return lost
