"""Outlines of drawings, taken apart once: the engine is helped here with its costliest work.

A figure's outline is drawn twice, as a line and as a fill, and a code is the same on every paper.
The engine reads the letters and numbers of a path anew each time, which is half of all painting.
What is written to the PDF stays the same to the byte.
"""

import re
from functools import lru_cache
from typing import Any

from weasyprint import svg as engine  # type: ignore[import-untyped]
from weasyprint.svg.path import path as draw_path  # type: ignore[import-untyped]

_ABSOLUTE = re.compile(r"[MmLlHhVvCcAaZz0-9 .,-]*")
"""Paths whose numbers have no units, and so mean the same in every drawing."""
_MOST_KEPT = 256


def hasten_paths() -> None:
    """Have the engine draw paths by what is known of them."""
    engine.TAGS["path"] = _draw


def forget_paths() -> None:
    """Begin with nothing known."""
    _remember.cache_clear()


def _draw(drawing: Any, node: Any, font_size: float) -> None:
    steps = node.get("d", "")
    known = _remember(steps)
    stream = drawing.stream.stream
    if known:
        stream.extend(known)
        return
    start = len(stream)
    draw_path(drawing, node, font_size)
    if _ABSOLUTE.fullmatch(steps) and not _has_markers(node):
        known.extend(stream[start:])


def _has_markers(node: Any) -> bool:
    """Tell whether signs are drawn at the corners of a path, for which the engine keeps them."""
    return any(name.startswith("marker") for name in node.attrib)


@lru_cache(_MOST_KEPT)
def _remember(steps: str) -> list[bytes]:
    """Return what was drawn for the letters and numbers of a path; empty where nothing was."""
    del steps
    return []
