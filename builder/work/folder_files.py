"""The files of a folder, each read once however often its digest is asked for."""

import hashlib
import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

_State = tuple[int, int, int]
"""When it was changed last in nanoseconds, its bytes, and what the system calls it."""


@dataclass(frozen=True, slots=True)
class FolderFiles:
    """A folder that one process fills and looks at; a file that it wrote anew is read anew."""

    folder: Path
    _known: dict[str, tuple[_State, str]] = field(default_factory=dict)

    def list_names(self) -> tuple[str, ...]:
        """Return each file's path in the folder as it is now, folder by folder."""
        return tuple(sorted(_walk(str(self.folder), ""), key=_part))

    def digest(self, name: str) -> str:
        """Return the SHA-256 of a file's bytes in hex."""
        with (self.folder / name).open("rb", buffering=0) as file:
            state = _describe(file.fileno())
            known = self._known.get(name)
            if known is None or known[0] != state:
                self._known[name] = known = (state, hashlib.sha256(file.readall()).hexdigest())
            return known[1]

    def read(self, name: str) -> bytes:
        """Return a file's bytes."""
        return (self.folder / name).read_bytes()


def _walk(folder: str, within: str) -> Iterator[str]:
    """Yield files, and links to files, but nothing in folders that are links."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                yield from _walk(entry.path, f"{within}{entry.name}/")
            elif entry.is_file():
                yield within + entry.name


def _part(name: str) -> list[str]:
    return name.split("/")


def _describe(handle: int) -> _State:
    state = os.stat(handle)
    return state.st_mtime_ns, state.st_size, state.st_ino
