"""Work that is shared with copies of this process, which know all that it knows.

A copy is a fork: nothing is sent to it, and what it made comes back. Systems other than Linux, and
processes with work of their own in other threads, can't be copied safely, and do all themselves.
"""

import gc
import os
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from multiprocessing import current_process, get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import TypeVar

from builder.work.pool import count_cores
from builder.work.workers import deaf_to_the_keyboard

Thing = TypeVar("Thing")
Made = TypeVar("Made")

FEWEST = 12
"""Of fewer things a process is done sooner alone: copying it takes some hundredths of a second."""
_STDOUT, _STDERR = 1, 2
_PLACE_BYTES = 4
_MOST_RUNS = 4096
"""So many places fit into a pipe that nobody reads yet, even where it holds 16 kB."""


def share(work: Callable[[Thing], Made], things: Sequence[Thing]) -> list[Made]:
    """Return what ``work`` makes of each thing, in order; copies of this process take part.

    Whatever else ``work`` changes in a copy is lost, and what it says there is not heard. What a
    copy fails to make is made here, so that errors are raised as they are without copies.
    """
    copies = count_cores() - 1 if can_copy() else 0
    if len(things) < FEWEST or not copies:
        return [work(thing) for thing in things]
    made = _share(work, things, copies)
    return [made[place] if place in made else work(things[place]) for place in range(len(things))]


def can_copy() -> bool:
    """Tell whether this process may be copied: a lock that another thread holds stays locked.

    Threads that only watch are daemons, and hold no lock that work needs. A copy makes no copies.
    """
    others = (each for each in threading.enumerate() if each is not threading.main_thread())
    is_alone = all(thread.daemon for thread in others)
    return sys.platform == "linux" and is_alone and not current_process().daemon


def _share(work: Callable[[Thing], Made], things: Sequence[Thing], copies: int) -> dict[int, Made]:
    """Return what was made by its place; a place that is missing was lost with its copy."""
    context = get_context("fork")
    with ExitStack() as stack:
        places = stack.enter_context(_open_places(len(things)))
        ways: list[Connection] = []
        with spared_garbage():
            for _ in range(copies):
                here, there = context.Pipe(duplex=False)
                stack.callback(here.close)
                copy = context.Process(
                    target=_make_beside, args=(work, things, places, there), daemon=True
                )
                with deaf_to_the_keyboard():
                    copy.start()
                there.close()
                stack.callback(_end, copy)
                ways.append(here)
        made = {place: work(things[place]) for place in _take(places)}
        for way in ways:
            with suppress(EOFError, OSError):  # the copy is gone, and its share with it
                made.update(way.recv())
        return made


@dataclass(frozen=True, slots=True)
class _Places:
    """Which things are still to be made: a pipe, of which each process takes the next run."""

    reader: int
    """What the system calls the pipe."""
    count: int
    stride: int
    """How many places a run has."""


@contextmanager
def _open_places(count: int) -> Iterator[_Places]:
    stride = -(-count // _MOST_RUNS)
    reader, writer = os.pipe()
    try:
        with os.fdopen(writer, "wb") as end:
            end.writelines(start.to_bytes(_PLACE_BYTES) for start in range(0, count, stride))
        yield _Places(reader, count, stride)
    finally:
        os.close(reader)


def _take(places: _Places) -> Iterator[int]:
    """Yield places that no other process gets, until none is left."""
    while start := os.read(places.reader, _PLACE_BYTES):
        first = int.from_bytes(start)
        yield from range(first, min(first + places.stride, places.count))


@contextmanager
def spared_garbage() -> Iterator[None]:
    """Keep the collector off what there is, else each copy would get its own of all of it."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def _make_beside(
    work: Callable[[Thing], Made], things: Sequence[Thing], places: _Places, way: Connection
) -> None:
    """Make what falls to a copy, in the copy; what fails is told by the process that it is of."""
    silence()
    way.send({place: work(things[place]) for place in _take(places)})


def silence() -> None:
    """Have nothing heard of what this process says from now on."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for said in (_STDOUT, _STDERR):
        os.dup2(nowhere, said)


def _end(copy: BaseProcess) -> None:
    copy.kill()
    copy.join()
