"""Whether anything on a finished page may lie over its words.

Nothing but the tool's and the theme's own parts may leave its place, unless it plainly covers
nothing. Where boxes come to lie is for a browser to say; so this doesn't ask whether they do, but
whether they could.
"""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.page_chain import DEEPEST
from builder.publishing.proof.safety.page_words import list_above
from builder.publishing.proof.safety.styles.elements import PageElement, PageTree
from builder.publishing.proof.safety.styles.harmless import HARMLESS
from builder.publishing.proof.safety.styles.judged import WORKED_OUT
from builder.publishing.proof.safety.styles.lengths import Letter
from builder.publishing.proof.safety.styles.longhands import list_longhands
from builder.publishing.proof.safety.styles.matches import Match
from builder.publishing.proof.safety.styles.plain import COVERING, JUDGES
from builder.publishing.proof.safety.styles.rulebook import Rulebook
from builder.publishing.proof.safety.styles.sheets import Declaration
from builder.publishing.proof.safety.styles.styler import Styler, read_inline

_ALWAYS = (
    "dialog[open], template[shadowrootmode], math, marquee, animate, set, animateTransform, "
    "animateMotion, #__drawer[checked], #__search[checked], .md-dialog--active, "
    ".md-tooltip--active, .md-tooltip2--active, .md-annotation--active"
)
"""What lies over a page, or moves on it, by its nature or because the theme has it open."""
_DRAWING = re.compile(
    r"xmlns(?::\w+)?|viewbox|width|height|class|id|role|aria-[\w-]+|fill|fill-rule|stroke[\w-]*|"
    r"preserveaspectratio|focusable|lang|xml:lang|data-[\w-]+|font-[\w-]+|text-anchor|version|title",
    re.IGNORECASE,
)
"""Attributes of a drawing that keep it in its frame."""
_FRAME = re.compile(
    r"md-(?:announce|banner|button|code|content|dialog|ellipsis|footer|header|icon|logo|main|nav|"
    r"option|overlay|path|progress|search|search-result|select|sidebar|skip|source|status|tabs|"
    r"toggle|top|version)(?:__.+|--.+)?|tl-language(?:__.+)?"
)
"""Parts of the theme's frame around the article, which leave room for it."""
_QUIET = frozenset({"script", "style", "template", "head", "meta", "link", "title", "base"})
_REPLACED = frozenset(
    {"img", "svg", "video", "iframe", "hr", "canvas", "input", "picture", "button"}
)
_OUTER = " "
"""Stands for all elements outside the article, where nothing may be as high as it likes."""
_CALM = frozenset({"background", "background-color", "color", "font-family", "font-weight"})
"""What the theme's placed parts may be given: none of it makes them larger or brings them up."""
_PLAIN_KEY = re.compile(r"[.#]?[a-zA-Z][\w-]*", re.ASCII)
_LETTER = Letter(16.0, 16.0)
_SHORT_CONTENT = re.compile(r"none|normal|(['\"]).{0,3}\1|url\(.*\)|counters?\(.*\)")
_UNSEEN = re.compile(r"inset\((?:50|100)%\)")


def find_cover(tree: LexborHTMLParser, styler: Styler) -> bool:
    """Tell whether something on a page may lie over its words."""
    if tree.css_first(_ALWAYS) is not None:
        return True
    if any(not _is_in_frame(node) for node in tree.css("svg")):
        return True
    if any(_may_cover(each, node.tag or "") for node in tree.css("[style]") for each in _own(node)):
        return True
    wrapped = PageTree()
    return _find_foreign(tree, styler, wrapped) or _find_placed(tree, styler, wrapped)


def _own(node: LexborNode) -> tuple[Declaration, ...]:
    return read_inline(node.attributes.get("style") or "")


def _is_in_frame(drawing: LexborNode) -> bool:
    if all(_DRAWING.fullmatch(name) for name in drawing.attributes if name != "style"):
        return True
    return any(above.tag == "svg" for above in list_above(drawing))


def _may_cover(each: Declaration, tag: str) -> bool:
    """Tell whether a declaration could bring an element of a kind over others."""
    if each.name.startswith("--") or each.name in HARMLESS:
        return False
    return any(
        _spills(name, value, tag) for name, value in list_longhands(each.name, each.value.lower())
    )


def _spills(name: str, value: str, tag: str) -> bool:
    if name in {"height", "max-height"} and tag in _REPLACED:
        return False
    if name.startswith("overflow-") and tag in {*_REPLACED, ""}:
        return "visible" in value or "var(" in value
    if name in COVERING:
        return value not in {"initial", "unset"} and not COVERING[name](value, _LETTER)
    return name not in JUDGES and name not in WORKED_OUT


def _find_foreign(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether a sheet of others could bring an element of this page over others."""
    loud: dict[str, list[Match]] = {}
    for match in styler.rulebook.foreign:
        if _is_loud(match):
            loud.setdefault(match.selector.key, []).append(match)
    return any(_is_brought(element, loud) for element in _list_met(tree, wrapped, loud))


def _list_met(
    tree: LexborHTMLParser, wrapped: PageTree, loud: Mapping[str, object]
) -> Iterator[PageElement]:
    """Yield the elements that rules may be of, by what their selectors need."""
    if loud and all(_PLAIN_KEY.fullmatch(key) for key in loud):
        yield from (wrapped.wrap(node) for node in tree.css(", ".join(sorted(loud))))
    elif loud and tree.root is not None:
        yield from wrapped.wrap(tree.root).iter_subtree()


def _is_brought(element: PageElement, loud: Mapping[str, list[Match]]) -> bool:
    if element.local_name in _QUIET:
        return False
    if len(element.ancestors) >= DEEPEST:
        return True  # too deep to be matched in time
    is_within = any(each.local_name == "article" for each in element.ancestors)
    tag = element.local_name if is_within else _OUTER
    return any(
        match.selector.matches(element) and _is_loud(match, tag)
        for key in ("", *element.keys)
        for match in loud.get(key, ())
    )


def _is_loud(match: Match, tag: str = "") -> bool:
    is_part = match.selector.part is not None
    return any(
        _may_cover(each, tag) or (is_part and _is_long_content(each))
        for each in match.rule.declarations
    )


def _is_long_content(each: Declaration) -> bool:
    """Tell whether a part puts words beside those of the page."""
    return each.name == "content" and not _SHORT_CONTENT.fullmatch(each.value)


def _find_placed(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether a part that the tool or the theme places stands, or looks, as it never does."""
    known, strange = _write_queries(styler.rulebook)
    found = tree.css(strange) if strange else []
    if any(_leaves_place(wrapped.wrap(node), styler) for node in found):
        return True
    if not known or all(_is_calm(match) for match in styler.rulebook.foreign):
        return False
    return any(_is_made_over(wrapped.wrap(node), styler) for node in tree.css(known))


@lru_cache(maxsize=16)
def _write_queries(rulebook: Rulebook) -> tuple[str, str]:
    """Write selectors for all placed parts, and for those that stand where the theme has none."""
    placed = [match for match in rulebook.placed if _is_loud(match)]
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
        each.name == "position" and _may_cover(each, element.local_name) for each in given
    )


def _is_made_over(element: PageElement, styler: Styler) -> bool:
    """Tell whether a sheet of others gives a placed part another size, or shows it."""
    matches = styler.rulebook.find_matches(element)
    is_placed = any(
        match.rule.is_ours and each.name == "position" and _may_cover(each, "")
        for match in matches
        for each in match.rule.declarations
    )
    return is_placed and not all(match.rule.is_ours or _is_calm(match) for match in matches)


def _is_calm(match: Match) -> bool:
    return all(each.name in _CALM or each.name.startswith("--") for each in match.rule.declarations)
