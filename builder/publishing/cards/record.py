"""What became of a card: its PDF, or what stood in the way. Goes into the cache as bytes."""

import json
from dataclasses import asdict, dataclass, replace

from builder.publishing.cards.setting import Setting
from builder.publishing.proof.structure.fault import Fault, read_faults

_HEAD_END = b"\n"


@dataclass(frozen=True, slots=True)
class SideRecord:
    """How one side of a card came out."""

    setting: Setting
    excess_mm: float
    """How much too long it is at the smallest type; 0 where it fits."""


@dataclass(frozen=True, slots=True)
class CardRecord:
    """One printed card."""

    sides: tuple[SideRecord, ...]
    pages: int
    missing: tuple[str, ...]
    """Names of words that must stand on the card and don't."""
    smallest_points: float
    """The smallest type that was read back."""
    has_words_outside: bool
    pdf: bytes
    """Empty where a side didn't fit, or something was refused."""
    refused: str = ""
    """What the card asked for and may not have; empty where it asked for nothing."""
    lost: str = ""
    """Why it could not be made at all; empty for one that was."""
    faults: tuple[Fault, ...] = ()
    """What keeps it from being read without seeing it."""

    @property
    def fits(self) -> bool:
        """Tell whether every side found room."""
        return not any(side.excess_mm for side in self.sides)

    def is_sound(self, floor_points: float) -> bool:
        """Tell whether the finished card holds what it must."""
        is_whole = self.fits and not (self.lost or self.refused or self.missing)
        has_all = is_whole and not (self.has_words_outside or self.faults)
        return has_all and self.pages == len(self.sides) and self.smallest_points >= floor_points

    @classmethod
    def of_lost(cls, reason: str) -> "CardRecord":
        """Tell of a card that took more time or memory than a print may."""
        return cls((), 0, (), 0, False, b"", lost=reason)

    def to_bytes(self) -> bytes:
        """Pack the record for the cache."""
        head = asdict(replace(self, pdf=b"", faults=()))
        del head["pdf"]
        head["faults"] = [fault.spell() for fault in self.faults]
        return json.dumps(head).encode() + _HEAD_END + self.pdf

    @classmethod
    def from_bytes(cls, piece: bytes) -> "CardRecord":
        """Unpack what ``to_bytes`` packed."""
        head, _, pdf = piece.partition(_HEAD_END)
        fields = json.loads(head)
        sides = tuple(
            SideRecord(Setting(**side["setting"]), side["excess_mm"])
            for side in fields.pop("sides")
        )
        missing, faults = tuple(fields.pop("missing")), read_faults(fields.pop("faults"))
        return cls(sides=sides, missing=missing, pdf=pdf, faults=faults, **fields)
