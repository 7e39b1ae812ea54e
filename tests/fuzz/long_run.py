"""The long run: workers that try targets, and a watch over each, which ends what hangs."""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from tests.fuzz.trial import NOW, SUMS, Sums

LOG = "log"
ROOT = Path(__file__).parents[2]
HANG_SECONDS = 60.0
"""One try that takes longer hangs; most take a few milliseconds."""
_LOOK_EVERY_SECONDS = 0.5
_COVERED = re.compile(r"\bcov: ([0-9]+)")
"""How many branches were reached, as the guided worker's engine tells again and again."""
_START_SECONDS = 120.0
"""What a worker may take to read the course before its first try."""


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be run: each target so long, and where to keep what is found."""

    folder: Path
    seconds: float
    seed: int = 0
    module: str = "tests.fuzz.worker"
    hang_seconds: float = HANG_SECONDS
    most_ends: int = 10


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one target."""

    name: str
    sums: Sums
    ends: tuple[str, ...] = ()
    """What hung, or killed its worker, each as the name of a file with its case."""
    covered: int = 0
    """How many branches were reached; 0 where that wasn't measured."""

    @property
    def is_sound(self) -> bool:
        """Tell whether nothing was found."""
        return not self.sums.faults and not self.ends

    def write(self) -> str:
        """Return the line that tells of it."""
        sums = self.sums
        rules = " ".join(sums.rules) or "none"
        covered = f"{self.covered} branches, " if self.covered else ""
        return (
            f"{self.name:14} {sums.seconds / 60:5.1f} min {sums.tries:8} tries "
            f"{sums.accepted:8} accepted {sums.ways:5} ways {len(sums.faults):3} faults "
            f"{len(self.ends):2} ends; {covered}rules: {rules}"
        )


def run_targets(names: Sequence[str], order: Order, at_once: int) -> Iterator[Outcome]:
    """Run targets, so many at once, and yield what came of each in their order."""
    with ThreadPoolExecutor(at_once) as pool:
        yield from pool.map(lambda name: run_target(name, order), names)


def run_target(name: str, order: Order) -> Outcome:
    """Run one target until its time is over; a worker that had to be ended is replaced."""
    folder = order.folder / name
    folder.mkdir(parents=True, exist_ok=True)
    whole = Sums()
    ends: list[str] = []
    while whole.seconds < order.seconds and len(ends) < order.most_ends:
        left = order.seconds - whole.seconds
        code = _watch(name, order, left, order.seed + len(ends))
        _add(whole, _read_sums(folder))
        if code == 0:
            break
        case = folder / f"{name}-end-{len(ends)}"
        if (folder / NOW).exists():
            (folder / NOW).rename(case)
        ends.append(f"{case.name} ({'hung' if code is None else f'code {code}'})")
    told = _COVERED.findall((folder / LOG).read_text(encoding="utf-8", errors="replace"))
    return Outcome(name, whole, tuple(ends), max(map(int, told), default=0))


def _watch(name: str, order: Order, seconds: float, seed: int) -> int | None:
    """Start a worker and wait for it; end it, and return None, where one try hangs."""
    folder = order.folder / name
    for left in (NOW, SUMS):
        (folder / left).unlink(missing_ok=True)
    words = [sys.executable, "-m", order.module, name, str(folder), str(seconds), str(seed)]
    place = {"PYTHONPATH": str(ROOT), "PYTHONHASHSEED": "0"}
    with (folder / LOG).open("ab") as log:
        worker = subprocess.Popen(
            words, cwd=ROOT, env=os.environ | place, stdout=log, stderr=subprocess.STDOUT
        )
        code = _wait(worker.poll, folder / NOW, order.hang_seconds)
        if code is None:
            worker.kill()
            worker.wait()
    return code


def _wait(poll: Callable[[], int | None], now: Path, hang_seconds: float) -> int | None:
    """Wait until a worker ends; return None where it tries one thing for too long."""
    start = time.time()
    while (code := poll()) is None:
        time.sleep(_LOOK_EVERY_SECONDS)
        began = now.stat().st_mtime if now.exists() else start + _START_SECONDS
        if time.time() - began > hang_seconds:
            return None
    return code


def _read_sums(folder: Path) -> Sums:
    path = folder / SUMS
    return Sums(**json.loads(path.read_text(encoding="utf-8"))) if path.exists() else Sums()


def _add(whole: Sums, part: Sums) -> None:
    whole.tries += part.tries
    whole.seconds += part.seconds
    whole.accepted += part.accepted
    whole.ways = max(whole.ways, part.ways)
    whole.rules = sorted({*whole.rules, *part.rules})
    whole.faults |= part.faults
