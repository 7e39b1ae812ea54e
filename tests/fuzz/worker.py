"""Tries one target for a while in this process: `python -m tests.fuzz.worker`.

Started by the long run, which watches it: before each try it writes down what it tries, so that
what hangs or kills it is known. Whatever it finds is kept in a folder.
"""

import hashlib
import json
import os
import resource
import sys
import time
import traceback
import warnings
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from pathlib import Path
from random import Random

from tests.fuzz.changes import change
from tests.fuzz.desk import overwrite
from tests.fuzz.judging import FuzzError, Verdict, require_sound
from tests.fuzz.kinds import Target
from tests.fuzz.targets import TARGETS

MOST_MEMORY_BYTES = 3 * 2**30
NOW = "now"
"""The file that holds what is tried."""
SUMS = "sums.json"
MOST_FAULTS = 40
_MOST_CHANGES = 5
_MOST_SEEDS = 4000
_TELL_EVERY_SECONDS = 2.0


@dataclass(slots=True)
class Sums:
    """What came of a run so far."""

    tries: int = 0
    seconds: float = 0
    accepted: int = 0
    ways: int = 0
    """How many distinct answers were reached."""
    rules: list[str] = field(default_factory=list)
    faults: dict[str, str] = field(default_factory=dict)
    """What went wrong by the name of the file that shows it."""


def try_target(target: Target, folder: Path, seconds: float, seed: int) -> Sums:
    """Try a target until the time is over; what leads to a new answer is changed further."""
    random, sums = Random(seed), Sums()  # noqa: S311  # no secret
    seeds = list(target.seeds())
    reached: set[str] = set()
    rules: set[str] = set()
    now = os.open(folder / NOW, os.O_RDWR | os.O_CREAT)
    start, told = time.monotonic(), 0.0
    while sums.seconds < seconds and len(sums.faults) < MOST_FAULTS:
        data = _make_next(target, seeds, random, sums.tries)
        overwrite(now, data)
        verdict = _try(target, data, folder, sums)
        sums.tries += 1
        sums.seconds = time.monotonic() - start
        if verdict is not None:
            sums.accepted += "accepted" in verdict.reached
            rules |= verdict.rules
            if not verdict.reached <= reached and len(seeds) < _MOST_SEEDS:
                reached |= verdict.reached
                seeds.append(data)
        sums.ways, sums.rules = len(reached), sorted(rules)
        if sums.seconds - told > _TELL_EVERY_SECONDS:
            told = sums.seconds
            tell(folder, sums)
    tell(folder, sums)
    return sums


def tell(folder: Path, sums: Sums) -> None:
    """Write down what came of a run so far."""
    (folder / SUMS).write_text(json.dumps(asdict(sums)), encoding="utf-8")


def _make_next(target: Target, seeds: list[bytes], random: Random, tries: int) -> bytes:
    if tries < len(seeds):
        return seeds[tries]
    data = random.choice(seeds)
    for _ in range(random.randrange(1, _MOST_CHANGES)):
        data = change(data, random.getrandbits(64), target, seeds)
    return data


def _try(target: Target, data: bytes, folder: Path, sums: Sums) -> Verdict | None:
    told = find_fault(target, data)
    if isinstance(told, Verdict):
        return told
    spot, text = told
    name = f"{target.name}-{hashlib.sha256(spot.encode()).hexdigest()[:10]}"
    if name not in sums.faults:
        sums.faults[name] = text[-3000:]
        (folder / name).write_bytes(shrink(data, lambda less: _fails_at(target, less, spot)))
    return None


def find_fault(target: Target, data: bytes) -> Verdict | tuple[str, str]:
    """Judge bytes; return where and how that failed in place of a verdict."""
    try:
        return require_sound(target, data)
    except FuzzError as error:
        return f"unsound {str(error).partition(':')[0][:30]}", str(error)
    except BaseException as error:  # whatever it is, it is what is looked for
        if isinstance(error, KeyboardInterrupt):
            raise
        frames = traceback.extract_tb(error.__traceback__)
        ours = [each for each in frames if "/builder/" in each.filename] or list(frames)
        spot = f"{type(error).__name__} {ours[-1].filename}:{ours[-1].name}:{frames[-1].name}"
        return spot, "".join(traceback.format_exception(error))


def _fails_at(target: Target, data: bytes, spot: str) -> bool:
    found = find_fault(target, data)
    return not isinstance(found, Verdict) and found[0] == spot


def shrink(data: bytes, fails: Callable[[bytes], bool], seconds: float = 8) -> bytes:
    """Return fewer bytes that still fail in the same way."""
    end = time.monotonic() + seconds
    size = max(1, len(data) // 2)
    while size and time.monotonic() < end:
        at = 0
        while at < len(data) and time.monotonic() < end:
            less = data[:at] + data[at + size :]
            if fails(less):
                data = less
            else:
                at += size
        size //= 2
    return data


def main() -> None:
    """Try the target that the command names."""
    name, folder, seconds, seed = sys.argv[1:]
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY_BYTES, MOST_MEMORY_BYTES))
    warnings.simplefilter("error")
    try_target(TARGETS[name], Path(folder), float(seconds), int(seed))


if __name__ == "__main__":
    main()
