"""What of a PDF's page is seen, and where a spot of it lies on the seen page."""

from collections.abc import Collection
from ctypes import byref, c_float
from dataclasses import dataclass

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.sighting import Box
from builder.sums.paper import points_to_mm

_DECIMALS = 1
"""A tenth of a millimetre is what an eye tells apart."""
_TOLERANCE_POINTS = 0.05
"""Boxes of letters are kept in single precision."""

Matrix = tuple[float, float, float, float]
"""How a spot (x, y) is turned: to (a x + c y, b x + d y)."""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle in points, from a lower left corner."""

    left: float
    bottom: float
    right: float
    top: float

    @staticmethod
    def around(boxes: Collection["Rectangle"]) -> "Rectangle":
        """Return the smallest rectangle around some; there must be one."""
        return Rectangle(
            min([box.left for box in boxes]),
            min([box.bottom for box in boxes]),
            max([box.right for box in boxes]),
            max([box.top for box in boxes]),
        )

    def meet(self, other: "Rectangle") -> "Rectangle":
        """Return what both have in common; without area where that is nothing."""
        left, bottom = max(self.left, other.left), max(self.bottom, other.bottom)
        return Rectangle(
            left,
            bottom,
            max(left, min(self.right, other.right)),
            max(bottom, min(self.top, other.top)),
        )

    @property
    def area(self) -> float:
        """Return the area in square points."""
        return (self.right - self.left) * (self.top - self.bottom)


class Frame:
    """The part of a page that is seen, turned as it is seen (ISO 32000-2, 14.11.2).

    Media box and crop box bound what a reader shows, the trim box what is left after cutting.
    """

    def __init__(self, page: pypdfium2.PdfPage) -> None:
        shown = pdfium.FS_RECTF()
        pdfium.FPDF_GetPageBoundingBox(page, byref(shown))
        left, bottom, right, top = shown.left, shown.bottom, shown.right, shown.top
        turns: tuple[tuple[Matrix, float, float], ...] = (
            ((1, 0, 0, 1), -left, -bottom),
            ((0, -1, 1, 0), -bottom, right),
            ((-1, 0, 0, -1), right, top),
            ((0, 1, -1, 0), top, -left),
        )
        self._turn, self._across, self._up = turns[pdfium.FPDFPage_GetRotation(page) % 4]
        whole = self.place(Rectangle(left, bottom, right, top))
        self.width, self.height = whole.right, whole.top
        self._kept = whole.meet(self._find_trim(page) or whole)

    def place(self, box: Rectangle) -> Rectangle:
        """Return where a rectangle of the page lies on the seen page."""
        left, bottom = self.move(box.left, box.bottom)
        right, top = self.move(box.right, box.top)
        return Rectangle(min(left, right), min(bottom, top), max(left, right), max(bottom, top))

    def move(self, x: float, y: float) -> tuple[float, float]:
        """Return where a spot of the page lies on the seen page."""
        a, b, c, d = self._turn
        return (a * x + c * y + self._across, b * x + d * y + self._up)

    def turn(self, matrix: Matrix) -> Matrix:
        """Return a matrix of the page as the seen page has it."""
        a, b, c, d = self._turn
        return (
            a * matrix[0] + c * matrix[1],
            b * matrix[0] + d * matrix[1],
            a * matrix[2] + c * matrix[3],
            b * matrix[2] + d * matrix[3],
        )

    def holds(self, box: Rectangle) -> bool:
        """Tell whether the whole of a rectangle is on the paper."""
        kept = self._kept
        return (
            box.left >= kept.left - _TOLERANCE_POINTS
            and box.bottom >= kept.bottom - _TOLERANCE_POINTS
            and box.right <= kept.right + _TOLERANCE_POINTS
            and box.top <= kept.top + _TOLERANCE_POINTS
        )

    def measure(self, box: Rectangle, unit: float) -> Box:
        """Return a rectangle in millimetres from the page's top left corner.

        A page's unit is 1 for points, as nearly always.
        """
        sides = (box.left, self.height - box.top, box.right - box.left, box.top - box.bottom)
        return Box(*(round(points_to_mm(side * unit), _DECIMALS) for side in sides))

    def _find_trim(self, page: pypdfium2.PdfPage) -> Rectangle | None:
        sides = tuple(c_float() for _ in range(4))
        if not pdfium.FPDFPage_GetTrimBox(page, *map(byref, sides)):
            return None
        return self.place(Rectangle(*(side.value for side in sides)))
