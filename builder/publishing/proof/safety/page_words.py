"""Where words stand in the tree of a finished page."""

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.read_back import fold_text

_SILENT = frozenset({"noscript", "script", "style", "template", "head"})
_SHOWING = frozenset(
    {"svg", "math", "img", "picture", "input", "select", "progress", "meter", "canvas", "video"}
    | {"audio", "object", "embed", "iframe"}
)
"""What shows something of its own in the middle of words."""
_GAP = "\0"
"""Stands for it among the letters; no words hold it."""
_MARKS = "\u0300-\u036f\u0483-\u0489\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f"
_TURNING = re.compile(f"[\u202a-\u202e\u2066-\u2069]|[{_MARKS}]{{4}}")
"""Signs that have others read backwards (Unicode, UAX #9), and marks piled up over other lines."""
_CROSSING = re.compile(
    "[\u0334-\u0338\u0488\u0489\u1abe\u20d2\u20d3\u20d8-\u20da\u20dd-\u20e0\u20e2-\u20eb]"
)
"""Marks that strike a letter out or enclose it."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Some letters that stand in one element."""

    element: LexborNode
    spot: str
    """The nearest heading or id above."""
    is_clear: bool
    """Whether none of them is struck out by a mark."""


@dataclass(frozen=True, slots=True)
class PageWords:
    """The letters of a page's article in their order, with where each stands."""

    letters: str
    starts: tuple[int, ...]
    pieces: tuple[Piece, ...]
    is_turned: bool
    """Whether signs among them may have others shown in another order, or cover them."""

    def find_places(self, words: str) -> Iterator[tuple[Piece, ...]]:
        """Yield the pieces that hold some words, each time they stand on the page."""
        wanted = fold_text(words)
        start = self.letters.find(wanted) if wanted else -1
        while start >= 0:
            first = bisect_right(self.starts, start) - 1
            last = bisect_right(self.starts, start + len(wanted) - 1) - 1
            yield self.pieces[first : last + 1]
            start = self.letters.find(wanted, start + 1)


def read_page_words(tree: LexborHTMLParser) -> PageWords:
    """Read the words of a page's articles, or of its whole body where it has none."""
    nodes = tree.css("article") or tree.css("body")
    roots = [node for node in nodes if all(above.tag != "article" for above in list_above(node))]
    letters: list[str] = []
    starts: list[int] = []
    pieces: list[Piece] = []
    length, is_turned = 0, False
    for root in roots:
        for text, piece in _walk(root):
            folded = text if text == _GAP else fold_text(text)
            is_turned = is_turned or _TURNING.search(text) is not None
            if folded:
                starts.append(length)
                pieces.append(piece)
                letters.append(folded)
                length += len(folded)
    return PageWords("".join(letters), tuple(starts), tuple(pieces), is_turned)


def _walk(root: LexborNode) -> Iterator[tuple[str, Piece]]:
    """Yield each text with its place, and a gap for what isn't text and is seen."""
    spot = ""
    left = [root]
    while left:
        node = left.pop()
        tag = node.tag or ""
        if tag == "-text":
            text = node.text_content or ""
            if node.parent is not None and not text.isspace():
                yield text, Piece(node.parent, spot, _CROSSING.search(text) is None)
        elif tag in _SHOWING:
            yield _GAP, Piece(node, spot, is_clear=True)
        elif tag not in _SILENT and not tag.startswith("-"):
            spot = node.attributes.get("id") or spot
            children = list(node.iter(include_text=True))
            left.extend(reversed(children))


def list_above(node: LexborNode) -> Iterator[LexborNode]:
    """Yield the elements that an element stands in, from the nearest."""
    above = node.parent
    while above is not None:
        yield above
        above = above.parent
