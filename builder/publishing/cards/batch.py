"""A batch of cards and packs on one paper: the job of one worker process."""

from dataclasses import dataclass

from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.record import CardRecord


@dataclass(frozen=True, slots=True)
class Batch:
    """What to print; a face that was printed before comes with its record."""

    faces: tuple[CardFace, ...]
    records: tuple[CardRecord | None, ...]
    packs: tuple[Pack, ...] = ()


@dataclass(frozen=True, slots=True)
class PrintedBatch:
    """What came out: a record for each face, and bytes for each pack."""

    records: tuple[CardRecord, ...]
    packs: tuple[bytes, ...]
    """Empty bytes for a pack that has no sound card."""
