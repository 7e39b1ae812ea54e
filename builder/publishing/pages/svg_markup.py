"""Drawings inside pages."""

import re

from markupsafe import Markup

_PROLOGUE = re.compile(r"^\s*<\?xml[^>]*\?>\s*")
_BLANK_LINES = re.compile(r"\n\s*\n")


def place_svg(svg: str) -> Markup:
    """Make a drawing of ours ready to stand in a block of HTML: no prologue, no blank lines."""
    return Markup(_BLANK_LINES.sub("\n", _PROLOGUE.sub("", svg)).strip())  # noqa: S704  # ours
