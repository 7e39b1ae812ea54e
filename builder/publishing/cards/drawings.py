"""Drawings beside a page: the engine's parser and style sheets needn't look at their parts.

As parts of a page, the hundred elements of a figure cost as much as all words around it.
"""

import re
from collections.abc import Mapping
from html import escape, unescape
from re import Match

_DRAWING = re.compile(r'<svg (?=[^>]*(?:role="img"|class="qr"))[^>]*>.*?</svg>', re.DOTALL)
"""A drawing of ours without links; one with links is part of its page."""
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
_NAMESPACE = 'xmlns="http://www.w3.org/2000/svg"'


def set_drawings_aside(html: str, folder: str) -> tuple[str, Mapping[str, bytes]]:
    """Put pictures in place of drawings, each under its title; return the drawings by address."""
    drawings: dict[str, bytes] = {}

    def set_aside(drawing: Match[str]) -> str:
        svg = drawing[0]
        title = _TITLE.search(svg)
        if title is None or _NAMESPACE not in svg:
            return svg
        address = f"{folder}{len(drawings)}.svg"
        drawings[address] = svg.encode()
        told = escape(unescape(title[1]))
        return f'<img class="drawing" src="{address}" alt="{told}">'

    return _DRAWING.sub(set_aside, html), drawings
