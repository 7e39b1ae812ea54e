"""Whether all that is drawn is either text with a place in the tree or marked as none.

ISO 14289-1, 7.1; ISO 32000-1, 14.7.4.4 and 14.8.2.2.
"""

from collections.abc import Iterator, Sequence

import pikepdf

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.objects import Key, list_items, read_number
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.tree import Spot

_TOLD = 3
"""Of many faults alike, so many are told."""


def find_tagging_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield what is drawn and has no place, and places that have nothing."""
    contents, tree = opened.contents, opened.tree
    if not tree.roots:
        yield Fault(rules.PDF_UNTAGGED, "it has no tags")
        return
    lost = [_quote(opened, spot) for spot in contents.words if spot not in tree.owners]
    empty = [
        f"mark {spot[1]}"
        for spot in tree.owners
        if spot not in contents.words and (opened.is_whole or spot[0] in opened.streams)
    ]
    yield from _tell("{} has no mark", contents.stray)
    yield from _tell("{}", contents.tangled)
    yield from _tell("{} has no place in the tree of tags", lost)
    yield from _tell("the tree of tags names {}, which no page has", empty)
    yield from _tell("{}", tree.torn)
    yield from _tell("{} leads back to another part", list(_find_strangers(opened)))


def _tell(fact: str, found: Sequence[str]) -> Iterator[Fault]:
    for each in dict.fromkeys(found[:_TOLD]):
        yield Fault(rules.PDF_UNTAGGED, fact.format(each))
    if len(found) > _TOLD:
        more = f"and {len(found) - _TOLD} more"
        yield Fault(rules.PDF_UNTAGGED, fact.format(more))


def _quote(opened: OpenedPdf, spot: Spot) -> str:
    return f'"{opened.contents.words[spot]}"'


def _find_strangers(opened: OpenedPdf) -> Iterator[str]:
    """Yield marks from which a reader who points at them doesn't come to their part."""
    keys = _list_stream_keys(opened)
    rows: dict[Key, list[object]] = {}
    for (stream, number), owner in opened.tree.owners.items():
        if stream not in rows:
            key = keys.get(stream)
            rows[stream] = list_items(opened.parents.get(key)) if key is not None else []
        row = rows[stream]
        parent = row[number] if 0 <= number < len(row) else None
        if not isinstance(parent, pikepdf.Dictionary) or parent.objgen != owner:
            yield f"mark {number}"


def _list_stream_keys(opened: OpenedPdf) -> dict[Key, int | None]:
    """Return the key of each page and form in the table of parents."""
    streams = {spot[0] for spot in opened.tree.owners}
    return {
        stream: read_number(opened.pdf.get_object(stream), "/StructParents")
        for stream in streams
        if stream != (0, 0)
    }
