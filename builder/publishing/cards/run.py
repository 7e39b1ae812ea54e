"""One paper of a run: what the cache has, what must be printed, what came out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from builder.publishing.cards.batch import Batch, PrintedBatch
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.keys import key_card, key_pack
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.record import CardRecord
from builder.sums.paper import Paper

_CARDS_PER_BATCH = 6


class Shelf(Protocol):
    """Where finished pieces are kept between runs."""

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none."""

    def put(self, key: str, piece: bytes) -> None:
        """Keep a piece."""


@dataclass(slots=True)
class PaperRun:
    """All cards and packs of one paper."""

    paper: Paper
    faces: tuple[CardFace, ...]
    packs: tuple[Pack, ...]
    shelf: Shelf
    _records: dict[str, CardRecord] = field(default_factory=dict)
    _packs: dict[str, bytes] = field(default_factory=dict)

    def fetch(self) -> None:
        """Take from the cache what it has."""
        for face in self.faces:
            piece = self.shelf.get(key_card(face))
            if piece is not None:
                self._records[face.lesson.id] = CardRecord.from_bytes(piece)
        for pack in self.packs:
            piece = self.shelf.get(self._key(pack))
            if piece is not None:
                self._packs[pack.name] = piece

    def list_batches(self) -> Iterator[Batch]:
        """Return what must be printed: all in one where packs are stale, for they share pages."""
        stale = tuple(pack for pack in self.packs if pack.name not in self._packs)
        if stale:
            yield self._batch(self.faces, stale)
            return
        missing = [face for face in self.faces if face.lesson.id not in self._records]
        for start in range(0, len(missing), _CARDS_PER_BATCH):
            yield self._batch(tuple(missing[start : start + _CARDS_PER_BATCH]), ())

    def take(self, batch: Batch, printed: PrintedBatch) -> None:
        """Take what a worker made, and keep it in the cache."""
        for face, record in zip(batch.faces, printed.records, strict=True):
            self._records[face.lesson.id] = record
            if record.is_sound(self.paper.floor_points):
                self.shelf.put(key_card(face), record.to_bytes())
        for pack, pdf in zip(batch.packs, printed.packs, strict=True):
            if pdf:
                self._packs[pack.name] = pdf
                self.shelf.put(self._key(pack), pdf)

    @property
    def records(self) -> Mapping[str, CardRecord]:
        """Return the finished cards by the id of their lesson."""
        return self._records

    @property
    def bound(self) -> Mapping[str, bytes]:
        """Return the finished packs by name."""
        return self._packs

    def _batch(self, faces: tuple[CardFace, ...], packs: tuple[Pack, ...]) -> Batch:
        return Batch(faces, tuple(self._records.get(face.lesson.id) for face in faces), packs)

    def _key(self, pack: Pack) -> str:
        ids = {entry.id for chapter in pack.chapters for entry in chapter.entries}
        return key_pack(pack, tuple(key_card(f) for f in self.faces if f.lesson.id in ids))
