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
            if os.fstat(file.fileno()).st_size > MOST_BYTES:
                raise OSError(f"{name} is too large")
            return file.read()

    def digest(self, name: str) -> str:
        """Return the SHA-256 of a plain file in hex; OSError where it can't be read."""
        with os.fdopen(self._open(name), "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()

    def _open(self, name: str) -> int:
        if name not in self.plain:
            raise FileNotFoundError(name)
        return os.open(self.folder / name, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | _BINARY)


_BINARY = getattr(os, "O_BINARY", 0)


def list_site_files(folder: Path) -> SiteFiles:
    """List a folder; BuilderError where there is none, or it can't be opened."""
    try:
        found = list(_walk(folder.absolute(), ""))
    except OSError as error:
        raise BuilderError(
            f'"{folder}" is no folder that can be read ({error.strerror})',
            "name the folder of a finished site, such as site",
        ) from error
    plain = frozenset(name for name, is_plain in found if is_plain)
    return SiteFiles(folder, plain, tuple(sorted(name for name, fine in found if not fine)))


def _walk(folder: Path, within: str) -> Iterator[tuple[str, bool]]:
    """Yield each path, and whether it is a plain file; links are never followed."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda each: each.name):
            name = within + entry.name
            mode = entry.stat(follow_symlinks=False).st_mode
            if not stat.S_ISDIR(mode):
                yield name, stat.S_ISREG(mode)
                continue
            try:
                yield from list(_walk(Path(entry.path), f"{name}/"))
            except OSError:
                yield name, False
