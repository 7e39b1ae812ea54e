"""Work on things of strangers, done in copies of this process that are ended when it grows.

What a copy was at when it was ended is lost, and told as such; the rest goes on in another. Where
a process can't be copied (see ``share``), it does all itself, and nothing bounds it.
"""

import os
import time
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import NamedTuple, TypeVar

from builder.input_limits import READ_BACK_BYTES, READ_BACK_SECONDS
from builder.work.bounded import PATIENCE, bound_memory, bounded_processor
from builder.work.pool import count_cores
from builder.work.share import can_copy, silence, spared_garbage
from builder.work.workers import deaf_to_the_keyboard

Thing = TypeVar("Thing")
Made = TypeVar("Made")
_MOST_LOST = 4
"""After so many lost things the rest is lost too: somebody wants to keep us busy. Ours."""
_NONE_LEFT = -1


def share_bounded(
    work: Callable[[Thing], Made], things: Sequence[Thing], seconds: float = READ_BACK_SECONDS.most
) -> list[Made | None]:
    """Return what ``work`` makes of each thing, in order; None of what was lost.

    Each thing may take so many ``seconds`` of a processor. ``work`` returns whatever becomes of a
    thing, and raises nothing.
    """
    if not things or not can_copy():
        return [work(thing) for thing in things]
    crew = _Crew(work, things, seconds)
    try:
        return crew.run()
    finally:
        crew.end()


class _Task(NamedTuple):
    """What a copy is at, and when it is ended on the clock if it never answers."""

    copy: BaseProcess
    place: int
    end: float


class _Crew:
    """Copies at work, each with one thing at a time.

    The clock is watched from here: what watches it in this process can't be set in a copy.
    """

    def __init__(
        self, work: Callable[[Thing], Made], things: Sequence[Thing], seconds: float
    ) -> None:
        self._work, self._things, self._seconds = work, things, seconds
        self._left = deque(range(len(things)))
        self._copies: dict[Connection, _Task] = {}
        self._lost = 0

    def run(self) -> list[Made | None]:
        """Return what was made of each thing."""
        made: dict[int, Made | None] = {}
        while self._copies or self._left:
            while self._left and len(self._copies) < count_cores():
                self._start()
            for way in wait(list(self._copies), self._end_late()):
                if isinstance(way, Connection):
                    self._hear(way, made)
        return [made.get(place) for place in range(len(self._things))]

    def end(self) -> None:
        """End what still runs."""
        for way, task in self._copies.items():
            way.close()
            task.copy.kill()
            task.copy.join()
        self._copies.clear()

    def _end_late(self) -> float:
        """End copies that are past their time, and return when the next one will be."""
        now = time.monotonic()
        for task in self._copies.values():
            if task.end <= now:
                task.copy.kill()  # its end is heard as that of any other
        return max(0.0, min(task.end for task in self._copies.values()) - now)

    def _start(self) -> None:
        context = get_context("fork")
        here, there = context.Pipe()
        copy = context.Process(
            target=_serve, args=(self._work, self._things, self._seconds, there), daemon=True
        )
        with spared_garbage(), deaf_to_the_keyboard():
            copy.start()
        there.close()
        self._hand(here, copy)

    def _hand(self, way: Connection, copy: BaseProcess) -> None:
        """Give a copy the next thing, or let it go."""
        if not self._left:
            self._let_go(way, copy)
            return
        place = self._left.popleft()
        self._copies[way] = _Task(copy, place, time.monotonic() + self._seconds * PATIENCE)
        way.send(place)

    def _let_go(self, way: Connection, copy: BaseProcess) -> None:
        self._copies.pop(way, None)
        with suppress(OSError):  # it has been ended already
            way.send(_NONE_LEFT)
        way.close()
        copy.join()

    def _hear(self, way: Connection, made: dict[int, Made | None]) -> None:
        """Take what a copy made; one that says nothing was ended."""
        copy, place, end = self._copies[way]
        try:
            made[place] = way.recv()
        except (EOFError, OSError):
            self._lost += 1
            if self._lost >= _MOST_LOST:
                self._left.clear()
            self._let_go(way, copy)
            return
        if end <= time.monotonic():  # it answered as it was ended
            self._let_go(way, copy)
        else:
            self._hand(way, copy)


def _serve(
    work: Callable[[Thing], Made], things: Sequence[Thing], seconds: float, way: Connection
) -> None:
    """Make things in a copy, one after another, as they are asked for."""
    silence()
    bound_memory(READ_BACK_BYTES.most)
    while (place := way.recv()) != _NONE_LEFT:
        with bounded_processor(seconds):
            made = work(things[place])
        way.send(made)
    os._exit(0)  # nothing of the first process is this copy's to clear away
