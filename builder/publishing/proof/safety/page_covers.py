"""Whether anything on a finished page may lie over its words.

Nothing but the tool's and the theme's own parts may leave its place, unless it plainly covers
nothing. Where boxes come to lie is for a browser to say; so this doesn't ask whether they do, but
whether they could.
"""

import re
from collections.abc import Iterator, Mapping

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.page_chain import DEEPEST
from builder.publishing.proof.safety.page_parts import find_placed
from builder.publishing.proof.safety.page_spills import OUTER, is_loud, may_cover
from builder.publishing.proof.safety.page_words import list_above
from builder.publishing.proof.safety.styles.elements import PageElement, PageTree
from builder.publishing.proof.safety.styles.matches import Match
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
_QUIET = frozenset({"script", "style", "template", "head", "meta", "link", "title", "base"})
_PLAIN_KEY = re.compile(r"[.#]?[a-zA-Z][\w-]*", re.ASCII)


def find_cover(tree: LexborHTMLParser, styler: Styler) -> bool:
    """Tell whether something on a page may lie over its words."""
    if tree.css_first(_ALWAYS) is not None:
        return True
    if any(not _is_in_frame(node) for node in tree.css("svg")):
        return True
    if any(may_cover(each, node.tag or "") for node in tree.css("[style]") for each in _own(node)):
        return True
    wrapped = PageTree()
    return _find_foreign(tree, styler, wrapped) or find_placed(tree, styler, wrapped)


def _own(node: LexborNode) -> tuple[Declaration, ...]:
    return read_inline(node.attributes.get("style") or "")


def _is_in_frame(drawing: LexborNode) -> bool:
    if all(_DRAWING.fullmatch(name) for name in drawing.attributes if name != "style"):
        return True
    return any(above.tag == "svg" for above in list_above(drawing))


def _find_foreign(tree: LexborHTMLParser, styler: Styler, wrapped: PageTree) -> bool:
    """Tell whether a sheet of others could bring an element of this page over others."""
    loud: dict[str, list[Match]] = {}
    for match in styler.rulebook.foreign:
        if is_loud(match):
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
    tag = element.local_name if is_within else OUTER
    return any(
        match.selector.matches(element) and is_loud(match, tag)
        for key in ("", *element.keys)
        for match in loud.get(key, ())
    )
