"""Whether each link says where it leads and has its place in the text (ISO 14289-1, 7.18)."""

from collections.abc import Iterator

import pikepdf

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.objects import list_items, read_name, read_number, read_text
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.tree import Node

_UNSEEN = 2
"""A flag of annotations that are not shown (ISO 32000-1, table 165, bit 2)."""


def find_link_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield links and other annotations that a reading program can't tell of."""
    holders = {key: node for node in opened.nodes for key in _list_own_notes(node)}
    for number, page in enumerate(opened.pdf.pages, 1):
        for note in list_items(page.obj.get("/Annots")):
            if not isinstance(note, pikepdf.Dictionary):
                yield Fault(rules.PDF_LINK_UNSAID, f"an annotation on page {number} is none")
            elif not (read_number(note, "/F") or 0) & _UNSEEN:
                yield from _find_in(opened, note, holders.get(note.objgen), number)


def _list_own_notes(node: Node) -> Iterator[tuple[int, int]]:
    return (kid.key for kid in node.kids if not isinstance(kid, Node | tuple))


def _find_in(
    opened: OpenedPdf, note: pikepdf.Dictionary, holder: Node | None, number: int
) -> Iterator[Fault]:
    kind = read_name(note, "/Subtype")
    name = f"a {kind.lower() or 'note'} on page {number}"
    if not (read_text(note, "/Contents") or "").strip():
        yield Fault(rules.PDF_LINK_UNSAID, f"{name} has no words that stand for it")
    parent = opened.parents.get(read_number(note, "/StructParent"))  # type: ignore[arg-type]  # None is no key
    if holder is None:
        yield Fault(rules.PDF_LINK_UNSAID, f"{name} has no place in the tree of tags")
    elif not isinstance(parent, pikepdf.Dictionary) or parent.objgen != holder.key:
        yield Fault(rules.PDF_LINK_UNSAID, f"{name} doesn't lead back to its part")
    elif kind == "Link" and holder.role != "Link":
        yield Fault(rules.PDF_LINK_UNSAID, f"{name} has the role {holder.role}")
    elif kind == "Link" and not any(holder.list_spots()):
        yield Fault(rules.PDF_LINK_UNSAID, f"{name} has no words of its own")
