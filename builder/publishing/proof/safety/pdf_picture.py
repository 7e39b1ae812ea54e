"""Pictures of parts of a PDF's pages: what is really seen, dot by dot."""

from dataclasses import dataclass
from math import ceil, floor

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.pdf_frame import Frame, Rectangle

_DOTS_PER_POINT = 3
"""The thinnest strokes of the smallest type are two dots wide."""
_MOST_DOTS = 16_000_000
"""More than a page of A3 has; a larger area is drawn smaller."""
_MARGIN_DOTS = 4
_WHITE = (255, 255, 255, 255)
_COLOUR = 0xFFFFFF


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
    scale = min(_DOTS_PER_POINT, (_MOST_DOTS / max(area.area, 1)) ** 0.5)
    width, height = ceil(frame.width * scale), ceil(frame.height * scale)
    across, down = width / frame.width, height / frame.height
    left = max(0, floor(area.left * across) - _MARGIN_DOTS)
    top = max(0, floor(height - area.top * down) - _MARGIN_DOTS)
    right = min(width, ceil(area.right * across) + _MARGIN_DOTS)
    bottom = min(height, ceil(height - area.bottom * down) + _MARGIN_DOTS)
    size = (max(1, right - left), max(1, bottom - top))
    return Window(width, height, left, top, *size, across, down)


class Picture:
    """What a window shows, as one number a dot."""

    def __init__(self, window: Window, dots: memoryview, stride: int) -> None:
        self.window = window
        self._dots = dots
        self._stride = stride

    def row(self, number: int, left: int, right: int) -> memoryview:
        """Return dots of one row."""
        start = number * self._stride
        return self._dots[start + left : start + right]


def draw_colours(window: Window, page: object, flags: int) -> Picture:
    """Draw a page in colours: blue, green and red from the lowest byte on."""
    bitmap, content = _draw(window, page, pdfium.FPDFBitmap_BGRx, flags)
    return Picture(window, memoryview(content).cast("I"), bitmap.stride // 4)


def draw_greys(window: Window, page: object) -> Picture:
    """Draw a page in greys from 0 (black) to 255."""
    bitmap, content = _draw(window, page, pdfium.FPDFBitmap_Gray, pdfium.FPDF_GRAYSCALE)
    return Picture(window, memoryview(content), bitmap.stride)


def _draw(window: Window, page: object, kind: int, flags: int) -> tuple[pypdfium2.PdfBitmap, bytes]:
    bitmap = pypdfium2.PdfBitmap.new_native(window.width, window.height, kind)
    bitmap.fill_rect(_WHITE, 0, 0, window.width, window.height)
    size = (window.page_width, window.page_height)
    pdfium.FPDF_RenderPageBitmap(bitmap, page, -window.left, -window.top, *size, 0, flags)
    return bitmap, bytes(bitmap.buffer)
