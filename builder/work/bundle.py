"""Many small pieces that are kept between runs as one: opening files takes longer than reading."""

import json
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import islice

from builder.work.digest import digest
from builder.work.store import ContentStore

_FEWEST_OLD = 32
_OLD_SHARE = 4
"""One piece in so many may be of earlier runs, such as of another branch."""
_END = b"\n"


@dataclass(slots=True)
class Bundle:
    """A shelf of pieces by their keys; what no run has needed of late is dropped.

    What two runs at once have put in it is kept of the one that saves last.
    """

    store: ContentStore
    key: str
    _before: dict[str, bytes] | None = None
    _now: dict[str, bytes] = field(default_factory=dict)
    _is_saved: bool = True

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none."""
        piece = self._now.get(key, self._find_before().get(key))
        if piece is not None:
            self._now[key] = piece
        return piece

    def put(self, key: str, piece: bytes) -> None:
        """Keep a piece, from the next ``save`` on."""
        self._now[key] = piece
        self._is_saved = False

    def save(self) -> None:
        """Write what this run needed, if any of it is new; a folder that can't be written stays."""
        if self._is_saved:
            return
        old = {key: piece for key, piece in self._find_before().items() if key not in self._now}
        most = max(_FEWEST_OLD, len(self._now) // _OLD_SHARE)
        pieces = self._now | dict(islice(old.items(), most))
        head = json.dumps([[key, len(piece)] for key, piece in pieces.items()])
        with suppress(OSError):
            self.store.put(self.key, b"".join((head.encode(), _END, *pieces.values())))
            self._is_saved = True

    def _find_before(self) -> dict[str, bytes]:
        if self._before is None:
            self._before = _part(self.store.get(self.key) or b"[]\n")
        return self._before


def open_bundle(store: ContentStore, *names: str) -> Bundle:
    """Return the bundle of a name; nothing is read yet."""
    return Bundle(store, digest("bundle", *names))


def _part(whole: bytes) -> dict[str, bytes]:
    """Part a bundle into its pieces; the store has seen that it is whole."""
    head, _, body = whole.partition(_END)
    pieces: dict[str, bytes] = {}
    start = 0
    for key, size in json.loads(head):
        pieces[key] = body[start : start + size]
        start += size
    return pieces
