"""The virtual environment in the project's folder, and the stamp that says it is whole."""

import hashlib
import json
import os
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from types import MappingProxyType


class Purpose(StrEnum):
    """What an environment is for."""

    RUN = "run"
    TEST = "test"


LOCKS: Mapping[Purpose, tuple[str, ...]] = MappingProxyType(
    {
        Purpose.RUN: ("requirements.lock",),
        Purpose.TEST: ("requirements.lock", "tests/requirements.lock"),
    }
)


CHECKER = "tests/browser_scripts"
"""Where the checker of the scripts' types is listed, locked and installed."""


@dataclass(frozen=True, slots=True)
class Environment:
    """The environment of one checkout, for the Python that is running."""

    root: Path

    @property
    def folder(self) -> Path:
        """The environment's own folder."""
        return self.root / ".venv"

    @property
    def programs(self) -> Path:
        """The folder of its programs."""
        return self.folder / ("Scripts" if os.name == "nt" else "bin")

    @property
    def python(self) -> Path:
        """Its Python."""
        return self.programs / ("python.exe" if os.name == "nt" else "python")

    @property
    def command(self) -> Path:
        """The tempoleaf command in it."""
        return self.programs / ("tempoleaf.exe" if os.name == "nt" else "tempoleaf")

    @property
    def stamp(self) -> Path:
        """The file that is written last, and taken away before anything is changed."""
        return self.folder / "set-up.json"

    def locks(self, purpose: Purpose) -> tuple[Path, ...]:
        """Name the lock files that a purpose needs."""
        return tuple(self.root / name for name in LOCKS[purpose])

    @property
    def checker(self) -> Path:
        """The folder whose `package-lock.json` names the checker of the scripts' types."""
        return self.root / CHECKER

    def is_mine(self) -> bool:
        """Tell whether a set-up was finished here, by this Python, for this very folder."""
        return self.python.exists() and self._stamped().get("place") == self._place()

    def is_ready(self, purpose: Purpose) -> bool:
        """Tell whether the environment holds all that a purpose needs."""
        return (
            self.is_mine()
            and self.command.exists()
            and self._stamped().get(purpose) == self._contents(purpose)
        )

    def break_stamp(self) -> None:
        """Take the stamp away, so that an interrupted set-up is never taken for a whole one."""
        self.stamp.unlink(missing_ok=True)

    def write_stamp(self, purpose: Purpose) -> None:
        """Say that the set-up for a purpose, and so for running, is finished."""
        stamped = {"place": self._place()}
        for name in sorted({Purpose.RUN, purpose}):
            stamped[name] = self._contents(name)
        draft = self.stamp.with_suffix(".new")
        draft.write_text(json.dumps(stamped, indent=2) + "\n", encoding="utf-8")
        draft.replace(self.stamp)

    def _stamped(self) -> dict[str, str]:
        try:
            stamped = json.loads(self.stamp.read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        return stamped if isinstance(stamped, dict) else {}

    def _place(self) -> str:
        """Sum up the Python and the folder: programs in an environment name both."""
        return _digest((repr(sys.version_info).encode(), os.fsencode(self.root)))

    def _contents(self, purpose: Purpose) -> str:
        files = [*self.locks(purpose), self.root / "pyproject.toml"]
        if purpose is Purpose.TEST:
            files.append(self.checker / "package-lock.json")
        return _digest(file.read_bytes() for file in files)


def _digest(parts: Iterable[bytes]) -> str:
    return hashlib.sha256(b"".join(hashlib.sha256(part).digest() for part in parts)).hexdigest()
