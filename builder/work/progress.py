"""How far a long job is: told by whoever does it, shown after two seconds, never on stdout."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import ceil
from threading import Event, Lock, Thread
from time import monotonic
from typing import Protocol

SILENT_SECONDS = 2.0
"""What takes less says nothing."""
_LINE_SECONDS = 10.0
_WAKE_SECONDS = 0.5


class Progress(Protocol):
    """Takes in how far a job is."""

    def tell(self, name: str, done: int = 0, total: int = 0, before: int = 0) -> None:
        """Say how many of a total are done; another name begins another stage, none ends it.

        A total of 0 says that nobody knows it. ``before`` is how many of those that are done were
        there before, and so say nothing of how fast it goes.
        """


class _Silent:
    """Hears it and shows nothing."""

    def tell(self, name: str, done: int = 0, total: int = 0, before: int = 0) -> None:
        """Do nothing."""


SILENT: Progress = _Silent()


@dataclass(frozen=True, slots=True)
class Pace:
    """One stage at one moment."""

    name: str
    done: int
    total: int
    """0 where it isn't known."""
    seconds: float
    """Since the stage began."""
    before: int = 0
    """How many of those that are done took no work, because they were there before."""

    @property
    def a_second(self) -> float | None:
        """Return the rate of the work; None while nothing is done."""
        worked = self.done - self.before
        return worked / self.seconds if worked > 0 and self.seconds > 0 else None

    @property
    def seconds_left(self) -> int | None:
        """Return how long the rest takes at the rate so far; None where that isn't known."""
        if not self.total or self.a_second is None:
            return None
        return ceil((self.total - self.done) / self.a_second)

    def say(self) -> str:
        """Say it in a line, such as "cards: 120 of 400, 14.2 a second, 20 s left"."""
        if not self.total:
            return f"{self.name}: {self.seconds:.0f} s so far"
        return ", ".join((f"{self.name}: {self.done} of {self.total}", *self.say_rate()))

    def say_rate(self) -> Iterator[str]:
        """Yield the rate and the time that is left, as far as they are known."""
        if self.a_second is not None:
            yield f"{self.a_second:.1f} a second"
        if self.seconds_left is not None:
            yield f"{say_span(self.seconds_left)} left"


def count_up(progress: Progress, name: str, total: int) -> Iterator[int]:
    """Tell one more done at each step, from none to all."""
    for done in range(total + 1):
        progress.tell(name, done, total)
        yield done


def say_span(seconds: int) -> str:
    """Say a time in the two units that matter."""
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    if hours:
        return f"{hours} h {minutes} min"
    return f"{minutes} min {seconds} s" if minutes else f"{seconds} s"


class Stages:
    """Keeps what was told, and has it shown when there is something to see.

    ``show`` gets the pace of the stage, or None when a stage that was shown is over. ``look`` is
    called now and then by whoever waits, and at each turn by whoever works.
    """

    def __init__(
        self, show: Callable[[Pace | None], None], clock: Callable[[], float] = monotonic
    ) -> None:
        self._show = show
        self._clock = clock
        self._lock = Lock()
        self._began = clock()
        self._stage_began = self._began
        self._name = ""
        self._counts = (0, 0, 0)
        self._is_shown = False

    def tell(self, name: str, done: int = 0, total: int = 0, before: int = 0) -> None:
        """Take in how far a stage is."""
        with self._lock:
            if name != self._name:
                self._end_stage()
                self._name, self._stage_began = name, self._clock()
            self._counts = done, total, before
        self.look()

    def look(self) -> None:
        """Show the stage where the job has taken longer than a moment."""
        with self._lock:
            now = self._clock()
            if self._name and now - self._began >= SILENT_SECONDS:
                seconds = now - self._stage_began
                self._is_shown = True
                done, total, before = self._counts
                self._show(Pace(self._name, done, total, seconds, before))

    def close(self) -> None:
        """End the last stage."""
        with self._lock:
            self._end_stage()
            self._name = ""

    def _end_stage(self) -> None:
        if self._is_shown:
            self._show(None)
        self._is_shown = False


class Lines:
    """Shows paces as plain lines, one in ten seconds and no more."""

    def __init__(
        self, write: Callable[[str], None], clock: Callable[[], float] = monotonic
    ) -> None:
        self._write = write
        self._clock = clock
        self._next = 0.0

    def show(self, pace: Pace | None) -> None:
        """Write a line where it is time for one."""
        now = self._clock()
        if pace and now >= self._next:
            self._next = now + _LINE_SECONDS
            self._write(pace.say())


@contextmanager
def watch(show: Callable[[Pace | None], None]) -> Iterator[Progress]:
    """Give what takes in how far a job is, and look at it now and then until the job is over."""
    stages, is_over = Stages(show), Event()

    def wake() -> None:
        while not is_over.wait(_WAKE_SECONDS):
            stages.look()

    waker = Thread(target=wake, daemon=True, name="progress")
    waker.start()
    try:
        yield stages
    finally:
        is_over.set()
        waker.join()
        stages.close()


def write_to_stderr(line: str) -> None:
    """Write a line beside what was asked for."""
    sys.stderr.write(f"{line}\n")
