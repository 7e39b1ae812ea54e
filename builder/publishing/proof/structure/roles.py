"""Whether parts have the roles that programs know, in each other as these must stand.

Standard roles: ISO 32000-1, 14.8.4. Headings, lists and tables: ISO 14289-1, 7.4 to 7.6.
"""

import re
from collections import Counter
from collections.abc import Iterator

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.tree import Node

_GROUPS = "Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private"
_PARTS = "P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot"
_INLINE = "Span Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP"
STANDARD = frozenset(f"{_GROUPS} {_PARTS} {_INLINE} Figure Formula Form".split())
_HEADING = re.compile(r"H([1-6])")
_WITHIN = {
    "L": {"L", "LI", "Caption"},
    "LI": {"Lbl", "LBody", "L"},
    "Table": {"TR", "THead", "TBody", "TFoot", "Caption"},
    "THead": {"TR"},
    "TBody": {"TR"},
    "TFoot": {"TR"},
    "TR": {"TH", "TD"},
}
"""What may stand in a part."""
_ONLY_IN = {
    "LI": {"L"},
    "Lbl": {"LI", "Note"},
    "LBody": {"LI"},
    "TR": {"Table", "THead", "TBody", "TFoot"},
    "TH": {"TR"},
    "TD": {"TR"},
    "THead": {"Table"},
    "TBody": {"Table"},
    "TFoot": {"Table"},
}
"""In what a part may stand."""
_LISTS = {"L", "LI", "Lbl", "LBody"}
_NEVER_EMPTY = {"P", "H", "H1", "H2", "H3", "H4", "H5", "H6", "Lbl", "LBody", "TH", "Link", "Span"}
_PICTURES = ("Figure", "Formula")


def find_role_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield roles that no program knows, and parts in places where they mean nothing."""
    for root in opened.tree.roots:
        if root.role != "Document":
            yield Fault(
                rules.PDF_ROLE_UNKNOWN, f"its outermost part is no Document, but {root.role}"
            )
        yield from _find_misplaced(root, "")


def _find_misplaced(node: Node, above: str) -> Iterator[Fault]:
    role = node.role
    rule = rules.PDF_LIST_BROKEN if {role, above} & _LISTS else rules.PDF_TABLE_BROKEN
    if role not in STANDARD:
        yield Fault(rules.PDF_ROLE_UNKNOWN, f'"{role}" is no role that reading programs know')
    elif (above in _WITHIN and role not in _WITHIN[above]) or above not in _ONLY_IN.get(
        role, {above}
    ):
        yield Fault(rule, f"a part of the role {role} stands in {above or 'nothing'}")
    for kid in node.nodes:
        yield from _find_misplaced(kid, role)


def find_heading_faults(opened: OpenedPdf, cards: int) -> Iterator[Fault]:
    """Yield headings that skip a level, and a number of first ones other than that of cards."""
    last, firsts = 0, 0
    for node in opened.nodes:
        found = _HEADING.fullmatch(node.role)
        if found is None:
            continue
        level = int(found[1])
        firsts += level == 1
        if level > last + 1:
            words = opened.read_words(node)
            fact = f'a heading of level {level}, "{words}", comes after level {last}'
            yield Fault(rules.PDF_HEADINGS_UNORDERED, fact)
        last = level
    if firsts != cards:
        fact = f"{firsts} headings are of the first level, and {cards} should be"
        yield Fault(rules.PDF_HEADINGS_UNORDERED, fact)


def find_list_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield lists without items, and items that aren't whole."""
    for node in opened.nodes:
        if node.role == "L":
            items = [kid for kid in node.nodes if kid.role == "LI"]
            labelled = [any(kid.role == "Lbl" for kid in item.nodes) for item in items]
            if not items and not any(kid.role == "L" for kid in node.nodes):  # one for each column
                yield Fault(rules.PDF_LIST_BROKEN, "a list has no items")
            # The first item may go on from the page before, where its label stands.
            elif any(labelled) and not all(labelled[1:]):
                yield Fault(rules.PDF_LIST_BROKEN, "an item of a list has lost its number or dot")
        elif node.role == "LI":
            counts = Counter(kid.role for kid in node.nodes)
            if counts["LBody"] != 1 or counts["Lbl"] > 1:
                yield Fault(rules.PDF_LIST_BROKEN, "an item of a list isn't whole")


def find_picture_faults(opened: OpenedPdf, wanted: int | None) -> Iterator[Fault]:
    """Yield pictures for which no words stand (ISO 14289-1, 7.3), and those that are lost."""
    found = [node for node in opened.nodes if node.role in _PICTURES]
    if not all(node.alt for node in found):
        yield Fault(rules.PDF_PICTURE_UNSAID, "a picture has no words that stand for it")
    if wanted is not None and len(found) != wanted:
        fact = f"it has {len(found)} of its {wanted} pictures"
        yield Fault(rules.PDF_PICTURE_LOST, fact)


def find_empty_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield parts in which there is nothing, at which a voice would stop (ours)."""
    for node in opened.nodes:
        if node.role in _NEVER_EMPTY and not node.has_content:
            yield Fault(rules.PDF_PART_EMPTY, f"a part of the role {node.role} has nothing in it")
