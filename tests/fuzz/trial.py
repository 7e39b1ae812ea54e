"""One target tried again and again: what it reached, and what went wrong."""

import hashlib
import json
import os
import time
import traceback
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from pathlib import Path

from tests.fuzz.desk import overwrite
from tests.fuzz.judging import FuzzError, Verdict, require_sound
from tests.fuzz.kinds import Target

NOW = "now"
"""The file that holds what is tried, so that what hangs or kills its process is known."""
SUMS = "sums.json"
MOST_FAULTS = 40
_TELL_EVERY_SECONDS = 2.0
_SHRINK_SECONDS = 8.0


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


class Trial:
    """A target under trial; what it finds is kept in a folder."""

    def __init__(self, target: Target, folder: Path) -> None:
        self.target = target
        self.sums = Sums()
        self._folder = folder
        self._reached: set[str] = set()
        self._rules: set[str] = set()
        self._now = os.open(folder / NOW, os.O_RDWR | os.O_CREAT)
        self._start = time.monotonic()
        self._told = 0.0

    def take(self, data: bytes) -> bool:
        """Try some bytes; tell whether they led to an answer that is new."""
        overwrite(self._now, data)
        found = find_fault(self.target, data)
        self.sums.tries += 1
        self.sums.seconds = time.monotonic() - self._start
        is_new = self._note(found) if isinstance(found, Verdict) else self._keep(data, *found)
        if self.sums.seconds - self._told > _TELL_EVERY_SECONDS:
            self.tell()
        return is_new

    def tell(self) -> None:
        """Write down what came of the run so far."""
        self._told = self.sums.seconds
        self.sums.ways, self.sums.rules = len(self._reached), sorted(self._rules)
        (self._folder / SUMS).write_text(json.dumps(asdict(self.sums)), encoding="utf-8")

    def _note(self, verdict: Verdict) -> bool:
        self.sums.accepted += "accepted" in verdict.reached
        self._rules |= verdict.rules
        is_new = not verdict.reached <= self._reached
        self._reached |= verdict.reached
        return is_new

    def _keep(self, data: bytes, spot: str, text: str) -> bool:
        """Keep the first case of each fault, made as small as it goes."""
        name = f"{self.target.name}-{hashlib.sha256(spot.encode()).hexdigest()[:10]}"
        if name not in self.sums.faults and len(self.sums.faults) < MOST_FAULTS:
            self.sums.faults[name] = text[-3000:]
            less = shrink(data, lambda less: _fails_at(self.target, less, spot))
            (self._folder / name).write_bytes(less)
            self.tell()
        return False


def find_fault(target: Target, data: bytes) -> Verdict | tuple[str, str]:
    """Judge bytes; return where and how that failed in place of a verdict."""
    try:
        return require_sound(target, data)
    except KeyboardInterrupt:
        raise
    except FuzzError as error:
        return f"unsound {str(error).partition(':')[0][:30]}", str(error)
    except BaseException as error:  # noqa: BLE001  # whatever it is, it is what is looked for
        frames = traceback.extract_tb(error.__traceback__)
        ours = [each for each in frames if "/builder/" in each.filename] or list(frames)
        spot = f"{type(error).__name__} {ours[-1].filename}:{ours[-1].name}:{frames[-1].name}"
        return spot, "".join(traceback.format_exception(error))


def _fails_at(target: Target, data: bytes, spot: str) -> bool:
    found = find_fault(target, data)
    return not isinstance(found, Verdict) and found[0] == spot


def shrink(data: bytes, fails: Callable[[bytes], bool], seconds: float = _SHRINK_SECONDS) -> bytes:
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
