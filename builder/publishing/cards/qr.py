"""QR codes as one path each: small in the file and quick to draw."""

from functools import lru_cache
from io import BytesIO

import segno
from markupsafe import Markup

_CORRECTION = "m"
"""A card in daily use gets creased: level M mends 15 % (ISO/IEC 18004)."""
_KEPT = 1024
"""A lesson has the same code on all papers; finding the best mask for it takes 4 ms."""


@lru_cache(_KEPT)
def draw_qr(address: str, title: str) -> Markup:
    """Draw the code of an address as SVG of one path, black, without the white border.

    The page around it must leave four modules of white (ISO/IEC 18004, quiet zone).
    """
    target = BytesIO()
    code = segno.make_qr(address, error=_CORRECTION)
    code.save(
        target, kind="svg", border=0, xmldecl=False, omitsize=True, title=title, svgclass="qr"
    )
    return Markup(target.getvalue().decode().strip())  # noqa: S704  # made of modules and escaped
