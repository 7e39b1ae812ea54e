"""Looks of elements on each screen that a page is judged on, each worked out once."""

from collections.abc import Iterable, Iterator
from functools import lru_cache

from tinycss2 import parse_blocks_contents  # type: ignore[import-untyped]

from builder.publishing.proof.safety.styles.computed import Given, Kind, Style, compute_style
from builder.publishing.proof.safety.styles.elements import PageElement
from builder.publishing.proof.safety.styles.matches import Match
from builder.publishing.proof.safety.styles.rulebook import Rulebook
from builder.publishing.proof.safety.styles.sheets import Declaration, read_declarations

_BESIDE = frozenset({"before", "after", "marker"})
"""Parts that stand beside an element's own words."""


class Styler:
    """Works out looks by one rulebook."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        self._styles: dict[object, Style] = {}
        self._situations: dict[object, int] = {}
        self._screens: dict[frozenset[int], tuple[int, ...]] = {}

    def pick_screens(self, element: PageElement) -> tuple[int, ...]:
        """Return one of each kind of screen that makes a difference to an element."""
        masks = self._find_masks(element)
        found = self._screens.get(masks)
        if found is None:
            kinds: dict[object, int] = {}
            for number, screen in enumerate(self.rulebook.screens):
                kind = (screen.is_paper, *(mask >> number & 1 for mask in sorted(masks)))
                kinds.setdefault(kind, number)
            found = self._screens[masks] = tuple(kinds.values())
        return found

    def _find_masks(self, element: PageElement) -> frozenset[int]:
        if element.masks is None:
            above = frozenset[int]() if element.parent is None else self._find_masks(element.parent)
            own = {match.rule.screens for match in self.rulebook.find_matches(element)}
            element.masks = above if own <= above else above | own
        return element.masks

    def find_situation(self, element: PageElement) -> int:
        """Return a number that is the same for all elements that look alike on every screen."""
        if element.situation is None:
            above = -1 if element.parent is None else self.find_situation(element.parent)
            plain, _ = self.rulebook.find_plain(element)
            matches = self.rulebook.find_matches(element)
            key = (above, plain, matches, element.attrib.get("style", ""))
            element.situation = self._situations.setdefault(key, len(self._situations))
        return element.situation

    def style(self, element: PageElement, screen: int) -> Style:
        """Return an element's looks on a screen, told by its number."""
        known = element.styles.get(screen)
        if known is None:
            above = self.style(element.parent, screen) if element.parent is not None else None
            known = element.styles[screen] = self._look_up(element, screen, above)
        return known

    def _look_up(self, element: PageElement, screen: int, above: Style | None) -> Style:
        matches = self.rulebook.find_matches(element)
        kind = Kind(element.local_name, element.local_name == "a" and "href" in element.attrib)
        inline = element.attrib.get("style", "")
        key = (above, kind, matches, inline, screen)
        style = self._styles.get(key)
        if style is None:
            active = [match for match in matches if match.rule.screens >> screen & 1]
            style = compute_style(above, kind, tuple(_list_given(active, inline)))
            self._styles[key] = style
        return style

    def may_be_hidden(self, chain: Iterable[PageElement], screen: int) -> bool:
        """Tell whether a rule that may hold or not, or is of single lines, falls on elements."""
        return bool(self.rulebook.unsure) and any(
            _is_unsure(match, screen)
            for element in chain
            for match in self.rulebook.find_matches(element)
        )


def _is_unsure(match: Match, screen: int) -> bool:
    rule, part = match.rule, match.selector.part
    holds = not rule.is_ours and bool(rule.screens >> screen & 1)
    return holds and (not rule.is_sure or part is not None) and part not in _BESIDE


def _list_given(matches: list[Match], inline: str) -> Iterator[Given]:
    """Yield declarations in the order of the cascade, the winning ones last."""
    whole = [match for match in matches if match.selector.part is None]
    own = read_inline(inline)
    for match in sorted(whole, key=_rank):
        yield from _list_of(match, is_important=False)
    yield from (Given(each, False) for each in own if not each.is_important)
    for match in sorted(whole, key=_rank_important):
        yield from _list_of(match, is_important=True)
    yield from (Given(each, False) for each in own if each.is_important)


def _list_of(match: Match, *, is_important: bool) -> Iterator[Given]:
    rule = match.rule
    for each in rule.declarations:
        if each.is_important == is_important:
            yield Given(each, rule.is_ours)


def _rank(match: Match) -> tuple[int, tuple[int, int, int], int]:
    layer, place = match.rule.order
    return layer, match.selector.specificity, place


def _rank_important(match: Match) -> tuple[int, tuple[int, int, int], int]:
    """Rank as others, but layers the other way round."""
    layer, specificity, place = _rank(match)
    return -layer, specificity, place


@lru_cache(maxsize=512)
def read_inline(text: str) -> tuple[Declaration, ...]:
    """Read the declarations of a style attribute."""
    if not text:
        return ()
    return tuple(read_declarations(parse_blocks_contents(text)))
