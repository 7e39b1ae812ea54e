"""Paper: sizes of sheets and cards, and the smallest type that may stand on them."""

import re
from dataclasses import dataclass
from types import MappingProxyType

from builder.sums.citation import Citation

ISO_216 = Citation(
    "iso-216",
    "International Organization for Standardization",
    2007,
    "trimmed sizes of writing paper, A series",
    "ISO 216",
)

MM_PER_INCH = 25.4
_SAME_POINTS = 0.5
"""Files round sizes; no two papers differ by as little."""
POINTS_PER_INCH = 72
PIXELS_PER_INCH = 96
"""A CSS pixel is 1/96 inch (W3C, CSS Values and Units Level 3)."""


@dataclass(frozen=True, slots=True)
class Paper:
    """One size of paper, upright."""

    id: str
    title: str
    width_mm: float
    height_mm: float
    floor_points: float
    """No type on this paper is smaller."""
    top_points: float
    """Body type grows no larger, however much room there is."""
    margin_mm: float
    is_roomy: bool = True
    """Whether there is room for labels beside the text instead of in it."""

    @property
    def size_points(self) -> tuple[float, float]:
        """Return width and height in points."""
        return (mm_to_points(self.width_mm), mm_to_points(self.height_mm))


def mm_to_points(millimetres: float) -> float:
    """Turn millimetres into points of 1/72 inch."""
    return millimetres / MM_PER_INCH * POINTS_PER_INCH


def choose_sheet(paper_id: str) -> Paper:
    """Return the sheet that a studio prints on, by the size of its cards: A4 or US letter."""
    return PAPERS[SHEET_OF.get(paper_id, paper_id)]


def points_to_mm(points: float) -> float:
    """Turn points of 1/72 inch into millimetres."""
    return points / POINTS_PER_INCH * MM_PER_INCH


def find_papers(width_points: float, height_points: float) -> tuple[Paper, ...]:
    """Return the papers of a size in points, upright or on their sides."""
    size = sorted((width_points, height_points))
    return tuple(
        paper
        for paper in PAPERS.values()
        if all(
            abs(a - b) < _SAME_POINTS for a, b in zip(sorted(paper.size_points), size, strict=True)
        )
    )


def pixels_to_mm(pixels: float) -> float:
    """Turn CSS pixels into millimetres."""
    return pixels / PIXELS_PER_INCH * MM_PER_INCH


PAPERS = {
    paper.id: paper
    for paper in (
        # ISO 216 trims; inch sizes are exact multiples of 25.4 mm.
        Paper("a6", "A6", 105, 148, 8, 9, 5, is_roomy=False),
        Paper("a5", "A5", 148, 210, 9, 12, 8),
        Paper("a4", "A4", 210, 297, 9, 15, 14),
        Paper("half-letter", "half letter", 139.7, 215.9, 9, 12, 8),
        Paper("letter", "letter", 215.9, 279.4, 9, 15, 14),
        Paper("index", "index 5 × 8 in", 127, 203.2, 9, 11, 7, is_roomy=False),
    )
}
"""Every size that cards come in, by id."""

SHEET_OF = MappingProxyType({"a6": "a4", "a5": "a4", "half-letter": "letter", "index": "letter"})
"""The sheet that each card is cut from, by ids; larger cards are sheets themselves."""

WALL_SHEETS_MM = MappingProxyType({"a3": (420, 297), "a4": (297, 210)})
"""Width and height of the sheets that a wall chart is printed on, on their sides (ISO 216)."""

_LETTER_TERRITORIES = frozenset(
    (
        *("BZ", "CA", "CL", "CO", "CR", "GT", "MX"),
        *("NI", "PA", "PH", "PR", "SV", "US", "VE"),
    )
)
"""Where sheets are US Letter; everywhere else they are A4 (Unicode CLDR, supplemental data on
paper sizes; the list is from memory)."""
_TERRITORY = re.compile(r"[A-Za-z]{2}")


def find_usual_card(language: str) -> str:
    """Return the id of the card that is cut from the sheets of a language's country.

    The language is a BCP 47 tag such as ``es-MX``; empty where it names no country.
    """
    for part in language.split("-")[1:]:
        if _TERRITORY.fullmatch(part):
            return "half-letter" if part.upper() in _LETTER_TERRITORIES else "a5"
    return ""
