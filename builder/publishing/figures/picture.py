"""A lesson's figure as a file: SVG as it is drawn, PNG for programs that want dots."""

from io import BytesIO

import pypdfium2  # type: ignore[import-untyped]
from markupsafe import Markup

from builder.course.figure import Figure
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import labels_in
from builder.publishing.cards.pdf import open_press
from builder.sums.paper import POINTS_PER_INCH

ROOM = Room(width_mm=120, tallest_mm=60)
"""How large a figure is in a file of its own."""
_DOTS_PER_INCH = 300
_EDGE_MM = 2
_STYLE = """
@font-face { font-family: "Source Sans 3"; font-weight: 600;
  src: url(course:/fonts/SourceSans3-Semibold.ttf) }
body { margin: 0 } svg { display: block; color: #1d2b2a }
"""


def make_picture(figure: Figure, name: str, language: str) -> str:
    """Return a figure as SVG."""
    return draw_pair(figure, name, ROOM, labels_in(language)).svg


def paint_picture(figure: Figure, name: str, language: str) -> bytes:
    """Return a figure as PNG on white, at 300 dots an inch."""
    svg = Markup(make_picture(figure, name, language))  # noqa: S704  # drawn by us
    width, height = ROOM.width_mm + 2 * _EDGE_MM, ROOM.tallest_mm + 2 * _EDGE_MM
    page = f"@page {{ size: {width}mm {height}mm; margin: {_EDGE_MM}mm }}"
    html = Markup("<html lang={}><title>{}</title><body>{}").format(language, name, svg)
    return paint_pages(open_press().lay_out(html, _STYLE + page).write())[0]


def paint_pages(pdf: bytes, dots_per_inch: int = _DOTS_PER_INCH) -> tuple[bytes, ...]:
    """Return each page of a PDF as PNG."""
    document = pypdfium2.PdfDocument(pdf)
    images = []
    for page in document:
        image = BytesIO()
        page.render(scale=dots_per_inch / POINTS_PER_INCH).to_pil().save(image, "PNG")
        images.append(image.getvalue())
    return tuple(images)
