"""Where words stand in the tree of a finished page."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.read_back import fold_text

_SILENT = frozenset({"noscript", "script", "style", "template", "svg", "math", "head"})


@dataclass(frozen=True, slots=True)
class Piece:
    """Some letters that stand in one element."""

    element: LexborNode
    spot: str
    """The nearest heading or id above."""


@dataclass(frozen=True, slots=True)
class PageWords:
    """The letters of a page's article in their order, with where each stands."""

    letters: str
    starts: tuple[int, ...]
    pieces: tuple[Piece, ...]

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
    length = 0
    for root in roots:
        for text, piece in _walk(root):
            starts.append(length)
            pieces.append(piece)
            letters.append(text)
            length += len(text)
    return PageWords("".join(letters), tuple(starts), tuple(pieces))


def _walk(root: LexborNode) -> Iterator[tuple[str, Piece]]:
    """Yield the folded letters of each text with its place."""
    spot = ""
    left = [root]
    while left:
        node = left.pop()
        tag = node.tag or ""
        if tag == "-text":
            folded = fold_text(node.text_content or "")
            if folded and node.parent is not None:
                yield folded, Piece(node.parent, spot)
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
