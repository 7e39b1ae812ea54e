"""How a worker process ends: with the process that it works for, and not by the keyboard."""

import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import parent_process
from multiprocessing.connection import wait

_ENDED = 1


@contextmanager
def deaf_to_the_keyboard() -> Iterator[None]:
    """Have processes that start now never hear Ctrl+C, which reaches all that a terminal runs.

    It is meant for the one who asked for the work, and that one ends its workers.
    """
    if sys.platform == "win32":  # there are no masks; see ``follow_parent``
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT])
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def follow_parent() -> None:
    """Have this process end as soon as the one that started it is gone, however that ended."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_after, args=(parent.sentinel,), daemon=True).start()


def _end_after(sentinel: int) -> None:
    wait([sentinel])
    os._exit(_ENDED)
