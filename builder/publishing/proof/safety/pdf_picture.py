"""Pictures of parts of a PDF's pages: what is really seen, dot by dot."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.pdf_frame import Frame, Rectangle

_DOTS_PER_POINT = 2
"""The thinnest strokes of the smallest type are more than a dot wide."""
_MOST_DOTS = 16_000_000
"""More than a page of A3 has; a larger area is drawn smaller."""
_LONGEST_SIDE = 1_000_000
"""Of a page, in dots; the library counts them in 32 bits. Ours."""
_MARGIN_DOTS = 4
_WHITE = (255, 255, 255, 255)


@dataclass(frozen=True, slots=True)
class Window:
    """Which dots of a seen page a picture holds."""

    page_width: int
    page_height: int
    left: int
    top: int
    width: int
    height: int
    dots_across: float
    """To a point."""
    dots_down: float

    def find_dots(self, box: Rectangle) -> tuple[int, int, int, int]:
        """Return the left, top, right and bottom of a rectangle in this picture's dots."""
        left = floor(box.left * self.dots_across) - self.left
        right = ceil(box.right * self.dots_across) - self.left
        top = floor(self.page_height - box.top * self.dots_down) - self.top
        bottom = ceil(self.page_height - box.bottom * self.dots_down) - self.top
        return (left, top, right, bottom)


def open_window(frame: Frame, area: Rectangle) -> Window:
    """Return the window onto an area of a page, with some dots around it."""
    scale = min(
        _DOTS_PER_POINT,
        (_MOST_DOTS / max(area.area, 1)) ** 0.5,
        _LONGEST_SIDE / max(frame.width, frame.height, 1),
    )
    width, height = ceil(frame.width * scale), ceil(frame.height * scale)
    across, down = width / frame.width, height / frame.height
    left = max(0, floor(area.left * across) - _MARGIN_DOTS)
    top = max(0, floor(height - area.top * down) - _MARGIN_DOTS)
    right = min(width, ceil(area.right * across) + _MARGIN_DOTS)
    bottom = min(height, ceil(height - area.bottom * down) + _MARGIN_DOTS)
    size = (max(1, right - left), max(1, bottom - top))
    return Window(width, height, left, top, *size, across, down)


class Picture:
    """What a window shows of a page, against the ink that should be there.

    A number for a dot has blue in its lowest byte, then green, red, and how bright the wanted
    letters alone, in black on white, are there.
    """

    def __init__(self, window: Window, seen: bytes, alone: bytes) -> None:
        self.window = window
        both = bytearray(seen)
        both[3::4] = alone[::4]
        self._dots = memoryview(both).cast("I")

    def list_rows(self, box: Rectangle, more: int = 1) -> Iterator[memoryview]:
        """Yield the dots of a rectangle and of some more to the left and to the right."""
        window = self.window
        left, top, right, bottom = window.find_dots(box)
        left, right = max(left - more, 0), min(right + more, window.width)
        for row in range(max(top, 0), min(bottom, window.height)):
            yield self._dots[row * window.width + left : row * window.width + right]


def draw(window: Window, page: object, flags: int = 0) -> bytes:
    """Draw a page on white, four bytes for a dot: blue, green, red, and one without meaning.

    Letters alone are drawn like this too, because the library sets letters another way where it
    has but grey.
    """
    size = (window.width, window.height)
    bitmap = pypdfium2.PdfBitmap.new_native(*size, pdfium.FPDFBitmap_BGRx)
    bitmap.fill_rect(_WHITE, 0, 0, *size)
    whole = (window.page_width, window.page_height)
    pdfium.FPDF_RenderPageBitmap(bitmap, page, -window.left, -window.top, *whole, 0, flags)
    return bytes(bitmap.buffer)
