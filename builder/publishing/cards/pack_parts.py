"""What a pack is bound from, printed already."""

from dataclasses import dataclass

from builder.publishing.cards.pack_plan import Pack

FOLIOS_AT_ONCE = 32
"""Pages in a sheet of page numbers."""


@dataclass(frozen=True, slots=True)
class Contents:
    """The printed contents of a pack, which come before its cards."""

    page_count: int
    pdf: bytes

    def to_bytes(self) -> bytes:
        """Pack the contents for the cache."""
        return b"%d\n%b" % (self.page_count, self.pdf)

    @classmethod
    def from_bytes(cls, piece: bytes) -> "Contents":
        """Unpack what ``to_bytes`` packed."""
        count, _, pdf = piece.partition(b"\n")
        return cls(int(count), pdf)


@dataclass(frozen=True, slots=True)
class PackParts:
    """All that a pack is bound from, printed already."""

    pack: Pack
    """Its lessons know their pages."""
    contents: bytes
    folios: tuple[bytes, ...]
    """Sheets of pages that carry nothing but their number, for all of its pages."""
    cards: tuple[bytes, ...]
    """In the order of the contents."""
