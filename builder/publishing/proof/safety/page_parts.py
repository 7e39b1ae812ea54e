"""Parts of a page that the tool or the theme places, where they stand or look as they never do."""

import re
from functools import lru_cache

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.page_spills import is_loud, may_cover
from builder.publishing.proof.safety.styles.elements import PageElement, PageTree
from builder.publishing.proof.safety.styles.lengths import Letter
from builder.publishing.proof.safety.styles.limits import is_nudge
from builder.publishing.proof.safety.styles.longhands import list_longhands
from builder.publishing.proof.safety.styles.matches import Match
from builder.publishing.proof.safety.styles.rulebook import Rulebook
from builder.publishing.proof.safety.styles.styler import Styler

_FRAME = re.compile(
    r"md-(?:announce|banner|button|code|content|dialog|ellipsis|footer|header|icon|logo|main|nav|"
    r"option|overlay|path|progress|search|search-result|select|sidebar|skip|source|status|tabs|"
    r"toggle|top|version)(?:__.+|--.+)?|tl-language(?:__.+)?"
)
"""Parts of the theme's frame around the article, which leave room for it."""
_NEVER_WITHIN = re.compile(
    r"md-(?:announce|banner|dialog|footer|header|logo|nav|overlay|path|progress|search|"
    r"search-result|select|sidebar|skip|source|status|tabs|top|version)(?:__.+|--.+)?"
)
"""Those that have no place in the article: they move, or are lower than what they hold."""
_CALM = frozenset({"background", "background-color", "color", "font-family", "font-weight"})
"""What the theme's placed parts may be given: none of it makes them larger or brings them up."""
_UPRIGHT = frozenset(
    {"margin-top", "margin-bottom", "padding-top", "padding-bottom", "border-width", "gap"}
)
"""What makes the header higher."""
_LETTER = Letter(16.0, 16.0)
_UNSEEN = re.compile(r"inset\((?:50|100)%\)")


def find_placed(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether a part that the tool or the theme places stands, or looks, as it never does."""
    known, strange = _write_queries(styler.rulebook)
    found = tree.css(strange) if strange else []
    if any(_leaves_place(wrapped.wrap(node), styler) for node in found):
        return True
    if _find_out_of_frame(tree, styler, wrapped) or _find_tall_header(tree, styler, wrapped):
        return True
    if not known or all(_is_calm(match) for match in styler.rulebook.foreign):
        return False
    return any(_is_made_over(wrapped.wrap(node), styler) for node in tree.css(known))


def _find_out_of_frame(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether something in the article runs over its own edges by the tool's own rules."""
    if any(map(_is_of_frame, tree.css("article [class*=md-]"))):
        return True
    if any(_is_let_out(wrapped.wrap(node), styler) for node in tree.css("article svg")):
        return True
    low = _write_low_query(styler.rulebook)
    nodes = (node for node in tree.css(low) if node.text(strip=True)) if low else ()
    return any(_is_low(wrapped.wrap(node), styler) for node in nodes)


def _is_of_frame(node: LexborNode) -> bool:
    return any(map(_NEVER_WITHIN.fullmatch, (node.attributes.get("class") or "").split()))


def _is_let_out(drawing: PageElement, styler: Styler) -> bool:
    return any(
        value == "visible"
        for match in styler.rulebook.find_matches(drawing)
        for each in match.rule.declarations
        for name, value in list_longhands(each.name, each.value)
        if name.startswith("overflow-")
    )


@lru_cache(maxsize=16)
def _write_low_query(rulebook: Rulebook) -> str:
    """Write a selector for what our own rules may make lower than its words."""
    keys = {match.selector.key for match in rulebook.low}
    return ", ".join(f"article {key}" for key in sorted(keys) if key[:1] in {".", "#"})


def _is_low(element: PageElement, styler: Styler) -> bool:
    """Tell whether words run over the lower edge of a box that is of some height."""
    matches = styler.rulebook.find_matches(element)
    given = [each for m in matches if m.selector.part is None for each in m.rule.declarations]
    is_cut = any(each.name in {"overflow", "clip-path"} for each in given)
    return not is_cut and any(
        each.name in {"height", "max-height"} and may_cover(each, element.local_name)
        for each in given
    )


def _find_tall_header(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether a sheet of others lets the header, which stays in view, grow over the page."""
    tall = {match for match in styler.rulebook.foreign if _is_tall(match)}
    if not tall:
        return False
    within = (wrapped.wrap(node) for node in tree.css(".md-header *"))
    return any(not tall.isdisjoint(styler.rulebook.find_matches(element)) for element in within)


def _is_tall(match: Match) -> bool:
    longhands = (
        longhand
        for each in match.rule.declarations
        for longhand in list_longhands(each.name, each.value)
    )
    return any(name in _UPRIGHT and not is_nudge(value, _LETTER) for name, value in longhands)


@lru_cache(maxsize=16)
def _write_queries(rulebook: Rulebook) -> tuple[str, str]:
    """Write selectors for all placed parts, and for those that stand where the theme has none."""
    placed = [match for match in rulebook.placed if is_loud(match)]
    keys = {match.selector.key for match in placed}
    names = sorted(key for key in keys if key[:1] == ".")
    others = [match.selector.text for match in placed if match.selector.key[:1] != "."]
    strange = [name for name in names if not _FRAME.fullmatch(name[1:])]
    framed = [f"article {name}" for name in names if _FRAME.fullmatch(name[1:])]
    return ", ".join([*names, *others]), ", ".join([*strange, *framed, *others])


def _leaves_place(element: PageElement, styler: Styler) -> bool:
    """Tell whether a part is placed, other than in a window that is shut or as a box to tick."""
    if element.local_name == "input" or any(e.local_name == "dialog" for e in element.ancestors):
        return False
    matches = styler.rulebook.find_matches(element)
    given = [each for m in matches if m.selector.part is None for each in m.rule.declarations]
    is_unseen = any(each.name == "clip-path" and _UNSEEN.fullmatch(each.value) for each in given)
    return not is_unseen and any(
        each.name == "position" and may_cover(each, element.local_name) for each in given
    )


def _is_made_over(element: PageElement, styler: Styler) -> bool:
    """Tell whether a sheet of others gives a placed part another size, or shows it."""
    matches = styler.rulebook.find_matches(element)
    is_placed = any(
        match.rule.is_ours and each.name == "position" and may_cover(each, "")
        for match in matches
        for each in match.rule.declarations
    )
    return is_placed and not all(match.rule.is_ours or _is_calm(match) for match in matches)


def _is_calm(match: Match) -> bool:
    return all(each.name in _CALM or each.name.startswith("--") for each in match.rule.declarations)
