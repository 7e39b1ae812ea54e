"""The files of a folder that anybody may have filled: only plain ones are read, and none twice."""

import hashlib
import os
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.errors import BuilderError

MOST_BYTES = 512_000_000
"""No file of a site that is read as a whole has a tenth of it (ours)."""


@dataclass(frozen=True, slots=True)
class SiteFiles:
    """What lies in a folder, as it was when it was listed."""

    folder: Path
    plain: frozenset[str]
    """Paths of plain files; nothing behind a link is among them."""
    strange: tuple[str, ...]
    """Paths of links, pipes and folders that can't be opened."""

    def read(self, name: str) -> bytes:
        """Return a plain file's bytes; OSError for anything else, or what has become a link."""
        with os.fdopen(self._open(name), "rb") as file:
            return file.read()

    def digest(self, name: str) -> str:
        """Return the SHA-256 of a plain file in hex; OSError where it can't be read."""
        with os.fdopen(self._open(name), "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()

    def _open(self, name: str) -> int:
        if name not in self.plain:
            raise FileNotFoundError(name)
        handle = os.open(self.folder / name, _FLAGS)
        state = os.fstat(handle)
        if stat.S_ISREG(state.st_mode) and state.st_size <= MOST_BYTES:
            return handle
        os.close(handle)
        raise OSError(f"{name} is too large, or has become something else")


_FLAGS = os.O_RDONLY | sum(
    getattr(os, name, 0) for name in ("O_NOFOLLOW", "O_NONBLOCK", "O_BINARY", "O_CLOEXEC")
)
"""No link is followed, and no pipe waited for."""


def list_site_files(folder: Path) -> SiteFiles:
    """List a folder; BuilderError where there is none, or it can't be opened."""
    try:
        found = list(_walk(folder.absolute()))
    except OSError as error:
        raise BuilderError(
            f'"{folder}" is no folder that can be read ({error.strerror})',
            "name the folder of a finished site, such as site",
        ) from error
    plain = frozenset(name for name, is_plain in found if is_plain)
    return SiteFiles(folder, plain, tuple(sorted(name for name, fine in found if not fine)))


def _walk(folder: Path) -> Iterator[tuple[str, bool]]:
    """Yield each path, and whether it is a plain file; links are never followed."""
    waiting = [""]
    while waiting:
        within = waiting.pop()
        try:
            with os.scandir(folder / within) as entries:
                found = [(each.name, each.stat(follow_symlinks=False).st_mode) for each in entries]
        except OSError:
            if not within:
                raise
            yield within.removesuffix("/"), False
            continue
        for name, mode in found:
            if stat.S_ISDIR(mode):
                waiting.append(f"{within}{name}/")
            else:
                yield within + name, stat.S_ISREG(mode)
