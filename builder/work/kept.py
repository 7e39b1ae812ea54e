"""What was worked out before, kept for the next run: plain data by the key of all it hangs on.

Each name is one file of the project's cache. It holds what the last run needed and a little of
what runs before it did, so it doesn't grow. Losing it, or not being able to write it, costs time
and nothing else; what somebody else wrote, or a project brought along, is taken for nothing.
"""

import hashlib
import hmac
import json
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path

from builder.work.plain import Plain
from builder.work.secret import read_secret
from builder.work.store import ContentStore

FOLDER = Path(".cache", "check")
_MARK = "sha256"
_MARK_BYTES = hashlib.sha256().digest_size
_FEWEST_OLD = 32
_OLD_SHARE = 4
"""One entry in so many may be of earlier runs, such as of another branch."""


@dataclass(slots=True)
class Kept:
    """Entries of one name; what a run takes or adds is kept, of the rest what is newest."""

    store: ContentStore
    key: str
    """Of the file that holds them all."""
    secret: bytes | None
    """None where nothing can be kept."""
    added: int = 0
    """How many entries this run had to work out."""
    _before: dict[str, Plain] | None = None
    _now: dict[str, Plain] = field(default_factory=dict)
    _is_saved: bool = True

    def get(self, key: str) -> Plain | None:
        """Return what was kept under a key; None where nothing is."""
        entry = self._now.get(key, self._find_before().get(key))
        if entry is not None:
            self._now[key] = entry
        return entry

    def put(self, key: str, entry: Plain) -> None:
        """Keep something under a key, from the next ``save`` on."""
        self._now[key] = entry
        self.added += 1
        self._is_saved = False

    def save(self) -> None:
        """Write what this run needed, if any of it is new; a folder that can't be written stays."""
        if self.secret is None or self._is_saved:
            return
        before = self._find_before()
        old = (key for key in before if key not in self._now)
        most = max(_FEWEST_OLD, len(self._now) // _OLD_SHARE)
        entries = {**self._now, **{key: before[key] for key in islice(old, most)}}
        piece = json.dumps(entries, ensure_ascii=False, separators=(",", ":")).encode()
        with suppress(OSError):
            self.store.put(self.key, self._mark(self.secret, piece) + piece)
            self._is_saved = True

    def _find_before(self) -> dict[str, Plain]:
        if self._before is None:
            self._before = self._load()
        return self._before

    def _load(self) -> dict[str, Plain]:
        stored = self.store.get(self.key) if self.secret else None
        if stored is None or self.secret is None:
            return {}
        mark, piece = stored[:_MARK_BYTES], stored[_MARK_BYTES:]
        if not hmac.compare_digest(mark, self._mark(self.secret, piece)):
            return {}
        entries: dict[str, Plain] = json.loads(piece)
        return entries

    def _mark(self, secret: bytes, piece: bytes) -> bytes:
        return hmac.digest(secret, self.key.encode() + piece, _MARK)


def open_kept(project: Path, name: str) -> Kept:
    """Return what is kept under a name in the cache of a project; nothing is read yet."""
    key = hashlib.sha256(name.encode()).hexdigest()
    return Kept(ContentStore(project / FOLDER), key, read_secret())


def make_key(*parts: str) -> str:
    """Return a digest of some parts, each told from its neighbours."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()
