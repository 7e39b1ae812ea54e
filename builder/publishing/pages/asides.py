"""Drawings laid aside while a page is made, since nobody on the way reads a word in them.

A drawing is most of a page's letters. Markdown, search and the glossary would go through all of
it and change nothing, so they get an empty mark in its place, and the finished page its drawings.
"""

import re
from collections.abc import Sequence

from builder.errors import BuilderError

_DRAWING = re.compile(
    r"<svg xmlns.*?</svg>|<script type=\"application/json\"[^>]*>.*?</script>", re.DOTALL
)
_MARK = re.compile(r'<span data-tl-aside="(\d+)"></span>')


def lay_aside(text: str) -> tuple[str, tuple[str, ...]]:
    """Return a page with marks in place of its drawings and their data, and these in order.

    Only for pages whose every word is escaped, so that no author can have written a mark.
    """
    drawings: list[str] = []

    def mark(found: re.Match[str]) -> str:
        drawings.append(found.group())
        return f'<span data-tl-aside="{len(drawings) - 1}"></span>'

    return _DRAWING.sub(mark, text), tuple(drawings)


def put_back(html: str, drawings: Sequence[str]) -> str:
    """Return a page with its drawings; BuilderError where one of them has lost its place."""
    found: list[int] = []

    def draw(mark: re.Match[str]) -> str:
        found.append(int(mark[1]))
        return drawings[found[-1]]

    whole = _MARK.sub(draw, html)
    if found != list(range(len(drawings))):
        raise BuilderError(
            "another plugin took drawings out of a page, or changed their order",
            "name tempoleaf before it in the list of plugins",
        )
    return whole
