"""A cache by content: what was made once from the same things is not made again."""

import hashlib
import os
import tempfile
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

_DIGEST_BYTES = hashlib.sha256().digest_size
_DAY_SECONDS = 24 * 60 * 60


@dataclass(frozen=True, slots=True)
class ContentStore:
    """A folder of pieces, each under the key of what it was made from: a digest in hex."""

    folder: Path

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none or it isn't whole any more."""
        path = self._path(key)
        try:
            stored = path.read_bytes()
        except OSError:
            return None
        with suppress(OSError):  # who may only read uses it all the same
            os.utime(path)
        digest, piece = stored[:_DIGEST_BYTES], stored[_DIGEST_BYTES:]
        return piece if hashlib.sha256(piece).digest() == digest else None

    def has(self, key: str) -> bool:
        """Tell whether there is a piece, without seeing whether it is whole."""
        return self._path(key).is_file()

    def put(self, key: str, piece: bytes) -> None:
        """Keep a piece; another process never sees half of it."""
        path = self._path(key)
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".new-")
        fresh = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(hashlib.sha256(piece).digest() + piece)
            fresh.replace(path)
        finally:
            fresh.unlink(missing_ok=True)

    def sweep(self, most_bytes: int) -> None:
        """Drop what was used longest ago while there is more than so much.

        What was used within a day stays: other languages and branches may be at work with it.
        """
        pieces = sorted(_list_pieces(self.folder))
        size = sum(piece_bytes for _, _, piece_bytes in pieces)
        for used_at, name, piece_bytes in pieces:
            if size <= most_bytes or time.time() - used_at < _DAY_SECONDS:
                return
            Path(name).unlink(missing_ok=True)
            size -= piece_bytes

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / key[2:]


def _list_pieces(folder: Path) -> Iterator[tuple[float, str, int]]:
    """Yield when each piece was last used, in seconds since 1970, its path and its bytes."""
    with suppress(OSError), os.scandir(folder) as groups:
        for group in groups:
            with suppress(OSError), os.scandir(group) as pieces:
                for piece in pieces:
                    with suppress(OSError):  # another process has dropped it meanwhile
                        state = piece.stat()
                        yield state.st_mtime, piece.path, state.st_size
