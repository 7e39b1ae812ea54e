"""One paper of a run: which cards and packs are there, and where they go."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from builder.publishing.cards.keys import key_pack
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.record import CardRecord
from builder.sums.paper import Paper


class Shelf(Protocol):
    """Where finished pieces are kept between runs."""

    def get(self, key: str) -> bytes | None:
        """Return a piece, or None where there is none."""

    def put(self, key: str, piece: bytes) -> None:
        """Keep a piece."""


@dataclass(slots=True)
class PaperRun:
    """All cards and packs of one paper; what is finished lies in its folder and not in memory."""

    paper: Paper
    folder: Path
    packs: tuple[Pack, ...]
    keys: dict[str, str] = field(default_factory=dict)
    """The key of each sound card by the id of its lesson."""
    leaves: dict[str, int] = field(default_factory=dict)
    """How many pages each of them has."""

    def take(self, lesson_id: str, key: str, record: CardRecord) -> None:
        """Write a card, unless it isn't sound."""
        if record.is_sound(self.paper.floor_points):
            self.keys[lesson_id] = key
            self.leaves[lesson_id] = record.pages
            write_file(self.folder / f"{lesson_id}.pdf", record.pdf)

    def read_card(self, lesson_id: str) -> bytes:
        """Return a card that was written."""
        return (self.folder / f"{lesson_id}.pdf").read_bytes()

    def key_pack(self, pack: Pack) -> str:
        """Return the key of a pack of cards that are all there."""
        return key_pack(pack, tuple(self.keys[name] for name in pack.list_lessons()))

    def count_leaves(self, pack: Pack) -> tuple[int, ...]:
        """Return how many pages each card of a pack has, in its order."""
        return tuple(self.leaves[name] for name in pack.list_lessons())

    def write_pack(self, pack: Pack, content: bytes) -> None:
        """Write a pack into a folder beside the cards."""
        write_file(self.folder / "packs" / f"{pack.name}.pdf", content)


def write_file(path: Path, content: bytes) -> None:
    """Write a file, in a folder that may not be there yet."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


def remember(shelf: Shelf, key: str, make: Callable[[], bytes]) -> bytes:
    """Return a piece of the cache, made now where it isn't there yet."""
    piece = shelf.get(key)
    if piece is None:
        piece = make()
        shelf.put(key, piece)
    return piece
