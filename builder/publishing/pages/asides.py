"""Parts of a page laid aside while it is made, since nobody on the way reads a word in them.

Drawings are most of a page's letters; the pacer and the line on a card's age are the same on all
pages but for a few words that the page has too. Markdown and search would go through all of it
and change nothing, so they get an empty mark in its place, and the finished page its parts.
"""

import re
from collections.abc import Sequence

from builder.errors import BuilderError

_ASIDE = re.compile(
    r'<dialog class="tl-pacer".*?</dialog>|<div class="tl-age".*?</div>|<svg xmlns.*?</svg>'
    r'|<script type="application/json"[^>]*>.*?</script>',
    re.DOTALL,
)
_MARK = re.compile(r'<span data-tl-aside="(\d+)"></span>')


def lay_aside(text: str) -> tuple[str, tuple[str, ...]]:
    """Return a page with marks in place of such parts, and these in order.

    Only for pages whose every word is escaped, so that no author can have written a mark.
    """
    parts: list[str] = []

    def mark(found: re.Match[str]) -> str:
        parts.append(found.group())
        return f'<span data-tl-aside="{len(parts) - 1}"></span>'

    return _ASIDE.sub(mark, text), tuple(parts)


def put_back(html: str, parts: Sequence[str]) -> str:
    """Return a page with its parts; BuilderError where one of them has lost its place."""
    found: list[int] = []

    def draw(mark: re.Match[str]) -> str:
        found.append(int(mark[1]))
        return parts[found[-1]]

    whole = _MARK.sub(draw, html)
    if found != list(range(len(parts))):
        raise BuilderError(
            "another plugin took parts out of a page, or changed their order",
            "name tempoleaf before it in the list of plugins",
        )
    return whole
