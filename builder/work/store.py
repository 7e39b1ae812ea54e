"""A cache by content: what was made once from the same things is not made again."""

import hashlib
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

_DIGEST_BYTES = hashlib.sha256().digest_size


@dataclass(frozen=True, slots=True)
class ContentStore:
    """A folder of pieces, each under the key of what it was made from: a digest in hex."""

    folder: Path

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none or it isn't whole any more."""
        try:
            stored = self._path(key).read_bytes()
        except OSError:
            return None
        digest, piece = stored[:_DIGEST_BYTES], stored[_DIGEST_BYTES:]
        return piece if hashlib.sha256(piece).digest() == digest else None

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

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / key[2:]
