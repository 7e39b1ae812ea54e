"""Runs a command as a process of its own and tells what it took: wall, processor, memory.

Processor seconds and memory are the system's own account of the process and of all processes that
it waited for (wait4). Of the processes below it the largest is watched through /proc, where a
system has one.
"""

import os
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

_KB_PER_MB = 1024
_WATCH_SECONDS = 0.1
_LAST_LINES = 12


class BenchError(Exception):
    """Something that makes a measurement worthless: a failed command, an output that lacks."""


@dataclass(frozen=True, slots=True)
class Usage:
    """What a run took."""

    wall_seconds: float
    cpu_seconds: float
    """User and system, with all processes below."""
    peak_mb: float
    """Of the largest process; never less than this one held when it started it (30 or so)."""
    worker_mb: float
    """Of the largest process below the command; 0 where there is none or none can be seen."""

    def __add__(self, other: "Usage") -> "Usage":
        """Return what two runs, one after the other, took."""
        return Usage(
            self.wall_seconds + other.wall_seconds,
            self.cpu_seconds + other.cpu_seconds,
            max(self.peak_mb, other.peak_mb),
            max(self.worker_mb, other.worker_mb),
        )


def run_command(
    words: Sequence[str], folder: Path, environment: Mapping[str, str]
) -> tuple[Usage, str]:
    """Run a command to its end; return what it took and what it said.

    Raises BenchError where it ends with anything but 0: a build that fails is never fast.
    """
    with tempfile.TemporaryFile("w+", encoding="utf-8") as said:
        begun = time.perf_counter()
        process = subprocess.Popen(
            words, cwd=folder, env=environment, stdout=said, stderr=subprocess.STDOUT
        )
        watch = _Watch(process.pid)
        watch.start()
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - begun
        process.returncode = os.waitstatus_to_exitcode(status)
        watch.end()
        said.seek(0)
        output = said.read()
    if process.returncode != 0:
        last = "\n".join(output.splitlines()[-_LAST_LINES:])
        name = " ".join((Path(words[0]).name, *words[1:2]))
        raise BenchError(f'"{name}" ended with {process.returncode}\n{last}')
    peak = used.ru_maxrss / _KB_PER_MB
    return Usage(wall, used.ru_utime + used.ru_stime, peak, watch.most_mb), output


class _Watch(threading.Thread):
    """Looks again and again how large the workers below a process have become at most.

    A worker is a process that began afresh. A forked copy of the process itself has its parent's
    memory from its first breath on, and so tells nothing of what it is given to do.
    """

    def __init__(self, root: int) -> None:
        super().__init__(daemon=True)
        self.most_mb = 0.0
        self._root = root
        self._is_over = threading.Event()

    def run(self) -> None:
        before: set[int] = set()
        while not self._is_over.wait(_WATCH_SECONDS):
            below = set(list_below(self._root))
            # Between fork and exec a process shows its parent's memory: the first look is left out.
            for number in below & before:
                if read_command(number) not in (b"", read_command(self._root)):
                    self.most_mb = max(self.most_mb, read_peak_mb(number))
            before = below

    def end(self) -> None:
        self._is_over.set()
        self.join()


def list_below(number: int) -> Iterator[int]:
    """Yield the numbers of all processes below a process; none where the system has no /proc."""
    try:
        lists = [path.read_text() for path in Path(f"/proc/{number}/task").glob("*/children")]
    except OSError:  # it has just ended
        return
    for child in " ".join(lists).split():
        yield int(child)
        yield from list_below(int(child))


def read_command(number: int) -> bytes:
    """Return the words a process was begun with; a forked copy has those of its parent."""
    try:
        return Path(f"/proc/{number}/cmdline").read_bytes()
    except OSError:
        return b""


def read_peak_mb(number: int) -> float:
    """Return the most memory that a process has held so far; 0 where it can't be seen."""
    try:
        status = Path(f"/proc/{number}/status").read_text()
    except OSError:
        return 0.0
    for line in status.splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) / _KB_PER_MB
    return 0.0
