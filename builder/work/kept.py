"""What was worked out before, kept for the next run: plain data by the key of all it hangs on.

Losing it, or not being able to write it, costs time and nothing else; what somebody else wrote, or
a project brought along, is taken for nothing.
"""

import hashlib
import json
from dataclasses import dataclass, field
from pathlib import Path

from builder.work.bundle import Bundle, open_bundle
from builder.work.plain import Plain
from builder.work.store import ContentStore

FOLDER = Path(".cache", "check")


@dataclass(slots=True)
class Kept:
    """Entries of one name, in one bundle."""

    bundle: Bundle
    added: int = 0
    """How many entries this run had to work out."""
    _now: dict[str, Plain] = field(default_factory=dict)

    def get(self, key: str) -> Plain | None:
        """Return what was kept under a key; None where nothing is."""
        if key not in self._now and (piece := self.bundle.get(key)) is not None:
            self._now[key] = json.loads(piece)
        return self._now.get(key)

    def put(self, key: str, entry: Plain) -> None:
        """Keep something under a key, from the next ``save`` on."""
        self._now[key] = entry
        self.bundle.put(key, json.dumps(entry, separators=(",", ":")).encode())
        self.added += 1

    def save(self) -> None:
        """Write what this run needed, if any of it is new; a folder that can't be written stays."""
        self.bundle.save()


def open_kept(project: Path, name: str) -> Kept:
    """Return what is kept under a name in the cache of a project; nothing is read yet."""
    return Kept(open_bundle(ContentStore(project / FOLDER), name))


def make_key(*parts: str) -> str:
    """Return a digest of some parts, each told from its neighbours."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()
