"""Posters to PNG: laid out by the PDF engine, then drawn dot by dot. Import it only when needed."""

from io import BytesIO

import pypdfium2  # type: ignore[import-untyped]

from builder.publishing.cards.pdf import open_press
from builder.publishing.posters.poster import Poster
from builder.sums.paper import POINTS_PER_INCH

_PIXELS_PER_INCH = 96
"""As CSS defines an inch."""
_COLOURS = 64
"""Enough for flat fills and soft edges, in a third of the bytes."""


_FAST_OCTREE = 2
"""The way of the imaging library that takes a sixth of the time and keeps flat colours."""


def paint_posters(posters: tuple[Poster, ...]) -> tuple[bytes, ...]:
    """Return posters as PNG, in their order; the job of one worker process."""
    return tuple(paint_poster(poster) for poster in posters)


def paint_poster(poster: Poster) -> bytes:
    """Return a poster as PNG."""
    pdf = open_press().lay_out(poster.html, poster.style).write()
    document = pypdfium2.PdfDocument(pdf)
    try:
        drawn = document[0].render(scale=_PIXELS_PER_INCH / POINTS_PER_INCH).to_pil()
    finally:
        document.close()
    picture = (
        drawn.convert("RGB")
        .crop((0, 0, poster.width, poster.height))
        .quantize(_COLOURS, method=_FAST_OCTREE)
    )
    target = BytesIO()
    picture.save(target, "PNG")
    return target.getvalue()
