"""A cache by content: what was made once from the same things is not made again.

A project may come from anybody, and its cache with it. So each piece carries a mark that only this
user's secret makes (``secret.py``): what somebody else wrote, or put under another key, is taken
for nothing. A forged piece could lose a caution, or run as a compiled template.
"""

import hashlib
import hmac
import os
import secrets
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from builder.work.secret import read_secret

_MARK = "sha256"
_MARK_BYTES = hashlib.sha256().digest_size
_DAY_SECONDS = 24 * 60 * 60
_MOST_BYTES = 1_000_000_000
"""Of one cache (ours): a course of 1,000 lessons takes 150 MB for each edition of its pages, and
its cards, packs and posters about as much."""
_HALF = ".new-"
"""How the name of a piece begins that isn't whole yet."""


def _find_secret() -> bytes:
    """Return this user's secret, or one for this run alone where none can be kept."""
    return read_secret() or secrets.token_bytes(_MARK_BYTES)


@dataclass(slots=True)
class ContentStore:
    """A folder of pieces, each under the key of what it was made from: a digest in hex."""

    folder: Path
    secret: bytes = field(default_factory=_find_secret, repr=False)
    began_at: float = field(default_factory=time.time)
    """When the run began that uses it, in seconds since 1970."""
    _has_grown: bool = False

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none, or it isn't ours or isn't whole."""
        path = self._path(key)
        try:
            stored = path.read_bytes()
        except OSError:
            return None
        with suppress(OSError):  # who may only read uses it all the same
            os.utime(path)
        mark, piece = stored[:_MARK_BYTES], stored[_MARK_BYTES:]
        return piece if hmac.compare_digest(mark, self._mark(key, piece)) else None

    def has(self, key: str) -> bool:
        """Tell whether something is there that ``get`` may still refuse; it counts as used."""
        path = self._path(key)
        try:
            os.utime(path)
        except OSError:  # there is none, or whoever may only read asks
            return path.is_file()
        return True

    def put(self, key: str, piece: bytes) -> None:
        """Keep a piece; another process never sees half of it.

        What can't be kept, as on a full disk, costs the next run time and nothing else.
        """
        path = self._path(key)
        try:
            self._write(path, self._mark(key, piece) + piece)
        except OSError:
            with suppress(OSError):
                self._clear_way(path)
                self._write(path, self._mark(key, piece) + piece)

    def _write(self, path: Path, content: bytes) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=_HALF)
        fresh = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            fresh.replace(path)
        finally:
            fresh.unlink(missing_ok=True)
        self._has_grown = True

    def _clear_way(self, path: Path) -> None:
        """Take away what isn't ours: a folder in place of a piece, a file in place of a folder."""
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        if self.folder.is_dir() and not path.parent.is_dir():
            path.parent.unlink()

    def sweep(self, most_bytes: int = _MOST_BYTES) -> None:
        """Drop what was used longest ago while there is more than so much.

        What this run used stays, and what any other used within a day: other languages and branches
        may be at work with it. Where this run added nothing, there is nothing to do. What goes
        while another run wants it is made again there.
        """
        if not self._has_grown:
            return
        kept_from = min(self.began_at, time.time() - _DAY_SECONDS)
        pieces = sorted(_list_pieces(self.folder))
        size = sum(piece_bytes for _, _, piece_bytes in pieces)
        for used_at, name, piece_bytes in pieces:
            if used_at >= kept_from:
                return
            if size > most_bytes or Path(name).name.startswith(_HALF):
                with suppress(OSError):  # another run dropped it, or has it open on Windows
                    Path(name).unlink()
                size -= piece_bytes

    def _mark(self, key: str, piece: bytes) -> bytes:
        return hmac.digest(self.secret, key.encode() + piece, _MARK)

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / key[2:]


def _list_pieces(folder: Path) -> Iterator[tuple[float, str, int]]:
    """Yield when each piece was last used, in seconds since 1970, its path and its bytes."""
    for place, _, names in os.walk(folder):
        for name in names:
            path = f"{place}/{name}"
            with suppress(OSError):  # another run has dropped it meanwhile
                state = os.stat(path)  # noqa: PTH116  # there may be many thousands
                yield state.st_mtime, path, state.st_size
