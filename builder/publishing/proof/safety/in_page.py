"""Wanted words on a finished web page: where a reader sees them, or why they count as missing.

No browser is asked, because builds have none. What style sheets say is worked out by the rules of
CSS for screens of every width, light and dark, and for paper; what those rules can't tell, and
whatever isn't understood in a sheet that is neither ours nor the theme's, counts as hiding. Styles
are judged as if they held, and without those in the page itself, which a site's policy denies.
What scripts do is not judged; the proof holds the scripts of a site to their digests.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.page_chain import (
    DEEPEST,
    is_folded_away,
    is_shown_by_markup,
)
from builder.publishing.proof.safety.page_covers import find_cover
from builder.publishing.proof.safety.page_markup import is_read_alike
from builder.publishing.proof.safety.page_words import Piece, read_page_words
from builder.publishing.proof.safety.seen import Seen, judge_style
from builder.publishing.proof.safety.sighting import Lack, Place, Sighting
from builder.publishing.proof.safety.styles.elements import SCHEME, PageElement, PageTree
from builder.publishing.proof.safety.styles.loading import Read, load_sheets
from builder.publishing.proof.safety.styles.rulebook import LaidSheet, make_rulebook
from builder.publishing.proof.safety.styles.styler import Styler
from builder.publishing.proof.safety.styles.typefaces import is_for_texts

_BEST_LAST = (Lack.ABSENT, Lack.HIDDEN, Lack.OUTSIDE, Lack.COVERED, Lack.SMALL, Lack.PALE)
_HIDDEN = Seen(Lack.HIDDEN, 0.0, 1.0)
_INLINE = "style, [style]"


def sight_in_page(read: Read, path: str, wanted: Mapping[str, str]) -> dict[str, Sighting]:
    """Find wanted words, by name, on a page of a site; the first place at which they are seen.

    ``read`` gives the files of the site by path; OSError where there is none.
    """
    page = _Page(read, path)
    return {name: page.sight(name, words) for name, words in wanted.items()}


@dataclass(frozen=True, slots=True)
class _View:
    """A page by the style sheets of one kind of reader, in each of its colour schemes."""

    styler: Styler
    judged: dict[int, Seen]
    """What was judged of elements that are alike, by the number of what they have in common."""
    trees: tuple[PageTree, ...]


class _Page:
    """One page, judged as far as wanted words ask for it."""

    def __init__(self, read: Read, path: str) -> None:
        content = read(path)
        text = content.decode("utf-8", errors="replace")
        self._tree = LexborHTMLParser(text)
        self._words = read_page_words(self._tree)
        self._views = tuple(self._list_views(read, path))
        self._is_odd = (
            self._words.is_turned
            or any(view.styler.rulebook.is_odd for view in self._views)
            or not is_read_alike(path, content, text, self._tree)
        )
        self._covered: bool | None = None
        self._seen: dict[int, Seen] = {}
        self._shown: dict[PageElement, bool] = {}

    def sight(self, name: str, words: str) -> Sighting:
        """Say where words are seen first, or what they lack where they are nearest to it."""
        worst = [Lack.ABSENT]
        for pieces in self._words.find_places(words):
            seen = self._judge(pieces)
            if seen.lack is None:
                place = Place(1, None, pieces[0].spot, seen.size_points, seen.contrast)
                return Sighting(name, place, None)
            worst.append(seen.lack)
        return Sighting(name, None, max(worst, key=_BEST_LAST.index))

    def _list_views(self, read: Read, path: str) -> Iterator[_View]:
        """Yield the page with the styles that stand in it, and without: most sites deny them."""
        for has_inline in (True, False) if self._tree.css_matches(_INLINE) else (True,):
            sheets = load_sheets(read, path, self._tree, has_inline=has_inline)
            trees = (PageTree(each, has_inline=has_inline) for each in self._list_schemes())
            yield _View(*_make_styler(sheets), tuple(trees))

    def _judge(self, pieces: Sequence[Piece]) -> Seen:
        """Judge words by the least of what holds them."""
        if self._is_odd or not all(piece.is_clear for piece in pieces):
            return _HIDDEN
        nodes = {piece.element.mem_id: piece.element for piece in pieces}
        for number, node in nodes.items():
            if number not in self._seen:
                self._seen[number] = _take_least(self._judge_all(node))
        least = _take_least(self._seen[number] for number in nodes)
        if least.lack is None and self._is_covered():
            return Seen(Lack.COVERED, least.size_points, least.contrast)
        return least

    def _judge_all(self, node: LexborNode) -> Iterator[Seen]:
        for view in self._views:
            for element in (tree.wrap(node) for tree in view.trees):
                chain = (*element.ancestors, element)
                is_shown = len(chain) < DEEPEST and all(self._is_shown(each) for each in chain)
                if not is_shown or is_folded_away(element):
                    yield _HIDDEN
                    return
                situation = view.styler.find_situation(element)
                if situation not in view.judged:
                    view.judged[situation] = _judge_on_screens(view.styler, chain)
                yield view.judged[situation]

    def _is_shown(self, element: PageElement) -> bool:
        if element not in self._shown:
            self._shown[element] = is_shown_by_markup(element)
        return self._shown[element]

    def _is_covered(self) -> bool:
        if self._covered is None:
            self._covered = find_cover(self._tree, self._views[0].styler)
        return self._covered

    def _list_schemes(self) -> tuple[str | None, ...]:
        """Return the colour schemes that the page's own switch can put on its body."""
        body = self._tree.body
        own = body.attributes.get(SCHEME) if body is not None else None
        if own is None:
            return (None,)
        asked = (node.attributes.get(SCHEME) for node in self._tree.css(f"input[{SCHEME}]"))
        return tuple(dict.fromkeys([own, *(scheme for scheme in asked if scheme)]))


def _judge_on_screens(styler: Styler, chain: tuple[PageElement, ...]) -> Seen:
    """Judge the last element of a chain on each screen that makes a difference."""
    return _take_least(
        _judge_looks(styler, chain, screen) for screen in styler.pick_screens(chain[-1])
    )


def _judge_looks(styler: Styler, chain: tuple[PageElement, ...], screen: int) -> Seen:
    style = styler.style(chain[-1], screen)
    is_brought = any(face in style.family for face in styler.rulebook.typefaces)
    is_strange = is_brought or not is_for_texts(style.family)
    if is_strange or styler.may_be_hidden(chain, screen):
        return _HIDDEN
    return judge_style(style, is_paper=styler.rulebook.screens[screen].is_paper)


def _take_least(all_seen: Iterable[Seen]) -> Seen:
    """Bring what was seen on several screens, or of several parts, down to the least."""
    size, contrast = float("inf"), float("inf")
    lack: Lack | None = None
    for seen in all_seen:
        size, contrast = min(size, seen.size_points), min(contrast, seen.contrast)
        lack = lack or seen.lack
    return Seen(lack, size, contrast)


@lru_cache(maxsize=16)
def _make_styler(sheets: tuple[LaidSheet, ...]) -> tuple[Styler, dict[int, Seen]]:
    """Return the looks of all pages that load the same sheets, and what was judged of them."""
    return Styler(make_rulebook(sheets)), {}
