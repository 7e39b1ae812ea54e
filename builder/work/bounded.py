"""Jobs that end: a worker bounds its memory, and each job its time, whatever the job runs into."""

import faulthandler
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import cache
from math import ceil
from pathlib import Path
from typing import IO, TypeVar

from builder.input_limits import JOB_BYTES, JOB_SECONDS

Made = TypeVar("Made")
PATIENCE = 5
"""So many times its seconds a job may wait for the machine, its processor or its disk."""


def bound_memory(most_bytes: int = JOB_BYTES.most) -> None:
    """Have this process refused more memory than so much, on systems that can."""
    with suppress(ImportError, ValueError, OSError):  # not there, or bounded tighter already
        import resource  # noqa: PLC0415  # unknown to Windows

        _, hard = resource.getrlimit(resource.RLIMIT_DATA)
        most = most_bytes if hard == resource.RLIM_INFINITY else min(most_bytes, hard)
        resource.setrlimit(resource.RLIMIT_DATA, (most, hard))


def run_within(seconds: float, run: Callable[[], Made]) -> Made:
    """Run a job; end this whole process where it takes more processor time, or far more time.

    Nothing less helps: a library that goes round in a circle hears no signal and no other thread.
    A busy machine makes a job wait, so that time on the clock alone says little.
    """
    faulthandler.dump_traceback_later(seconds * PATIENCE, exit=True, file=_open_nowhere())
    try:
        with bounded_processor(seconds):
            return run()
    finally:
        faulthandler.cancel_dump_traceback_later()


@contextmanager
def bounded_processor(seconds: float) -> Iterator[None]:
    """Have the system end this process where it works for so long, on systems that can."""
    try:
        import resource  # noqa: PLC0415  # unknown to Windows
    except ImportError:
        yield
        return
    before = resource.getrlimit(resource.RLIMIT_CPU)
    used = resource.getrusage(resource.RUSAGE_SELF)
    most = ceil(used.ru_utime + used.ru_stime + seconds)
    with suppress(ValueError, OSError):  # bounded tighter already
        resource.setrlimit(resource.RLIMIT_CPU, (most, before[1]))
    try:
        yield
    finally:
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_CPU, before)


def word_loss(took_seconds: float, most_seconds: float) -> str:
    """Say why a job was lost that had a worker to itself."""
    if most_seconds and took_seconds >= most_seconds:
        return f"it took more than {most_seconds:g} {JOB_SECONDS.unit}"
    return "its worker was ended, as where memory runs out"


@cache
def _open_nowhere() -> IO[bytes]:
    """Return where the last words of an ended process go: nobody is to read of its insides."""
    return Path(os.devnull).open("wb")  # open as long as the process lives
