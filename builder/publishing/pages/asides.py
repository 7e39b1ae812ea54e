"""Parts of a page laid aside while it is made, since nobody on the way reads a word in them.

Drawings are most of a page's letters; the pacer and the line on a card's age are the same on all
pages but for a few words that the page has too. Markdown and search would go through all of it
and change nothing, so they get an empty mark in its place, and the finished page its parts.
"""

import re
from collections.abc import Iterator, Sequence

from builder.errors import BuilderError

_BEGIN = re.compile(
    r'<(?:(dialog) class="tl-pacer"|(div) class="tl-age"|(svg) xmlns'
    r'|(script) type="application/json"[^>]*>)'
)
_MARK = re.compile(r'<span data-tl-aside="(\d+)"></span>')


def lay_aside(text: str) -> tuple[str, tuple[str, ...]]:
    """Return a page with marks in place of such parts, and these in order.

    Only for pages whose every word is escaped, or whose authors' words hold nothing alike.
    """
    words: list[str] = []
    parts: list[str] = []
    place = 0
    for start, end in _find_parts(text):
        words += (text[place:start], f'<span data-tl-aside="{len(parts)}"></span>')
        parts.append(text[start:end])
        place = end
    return "".join((*words, text[place:])), tuple(parts)


def holds_aside(text: str) -> bool:
    """Tell whether there is a mark in a text, or the beginning of what is laid aside."""
    return bool(_MARK.search(text) or _BEGIN.search(text))


def _find_parts(text: str) -> Iterator[tuple[int, int]]:
    """Yield where each part begins and ends; its letters, most of a page, are leapt over."""
    end = 0
    while begin := _BEGIN.search(text, end):
        closing = f"</{begin[begin.lastindex or 0]}>"
        found = text.find(closing, begin.end())
        end = begin.start() + 1 if found < 0 else found + len(closing)
        if found >= 0:
            yield begin.start(), end


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
