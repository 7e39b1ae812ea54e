"""A shelf that remembers what was put on it: the work of a build, counted."""

from dataclasses import dataclass, field


@dataclass
class CountingShelf:
    """Keeps pieces in memory; ``fresh`` are the keys of those made since somebody cleared it."""

    pieces: dict[str, bytes] = field(default_factory=dict)
    fresh: list[str] = field(default_factory=list)

    def get(self, key: str) -> bytes | None:
        return self.pieces.get(key)

    def put(self, key: str, piece: bytes) -> None:
        self.pieces[key] = piece
        self.fresh.append(key)
