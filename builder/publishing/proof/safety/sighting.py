"""Where words that must be seen were found on a finished page, or why they count as missing."""

from dataclasses import dataclass
from enum import StrEnum


class Lack(StrEnum):
    """Why words that should stand on a page can't be read there."""

    ABSENT = "absent"
    OUTSIDE = "outside the page"
    HIDDEN = "hidden"
    COVERED = "covered"
    SMALL = "too small"
    PALE = "too pale"
    UNREAD = "not read, because it takes too long or too much memory"


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on a page, in millimetres from the page's top left corner."""

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Place:
    """Where words stand."""

    page: int
    """From 1; a web page has one."""
    box: Box | None
    """None on a web page, where the reader's screen decides."""
    spot: str
    """On a web page the nearest heading or id above the words; empty in a PDF."""
    size_points: float
    """Of the smallest letter; a CSS pixel is 0.75 points."""
    contrast: float
    """Lowest contrast of a letter to what lies behind it, from 1 to 21 (WCAG 2.2)."""


@dataclass(frozen=True, slots=True)
class Sighting:
    """What was found of wanted words: their place, or what they lack."""

    name: str
    place: Place | None
    lack: Lack | None

    def __post_init__(self) -> None:
        """Refuse a sighting that is neither found nor lacking."""
        if self.place is None and self.lack is None:
            raise ValueError("words without a place must lack something")
