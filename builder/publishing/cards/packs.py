"""Packs: finished cards of a strand or of the course in one PDF, with contents and page numbers.

All parts are taken as they are, tags and all: nothing is laid out or drawn here, and the PDF engine
isn't loaded.
"""

from collections.abc import Iterator
from io import BytesIO

import pikepdf

from builder.publishing.cards.binding import Binder
from builder.publishing.cards.pack_parts import FOLIOS_AT_ONCE, PackParts
from builder.publishing.cards.pack_plan import Chapter, Pack
from builder.publishing.proof.structure.check import Wanted, find_bound_faults
from builder.publishing.proof.structure.fault import stop_on_faults
from builder.publishing.proof.structure.outline import Bookmark
from builder.publishing.proof.structure.source import Source


def bind_proved(parts: PackParts) -> bytes:
    """Bind a pack and look at what came of it; BuilderError where its tags have a fault."""
    content, pack = bind_pack(parts), parts.pack
    (first, *_) = (entry.page for chapter in pack.chapters for entry in chapter.entries)
    wanted = Wanted(
        source=Source(pack.language, pack.title, ()),
        cards=1 + len(parts.cards),
        bookmarks=tuple(_list_bookmarks(pack)),
        is_archival=pack.is_archival,
    )
    stop_on_faults(find_bound_faults(content, wanted, first - 1), f'the pack "{pack.name}"')
    return content


def _list_bookmarks(pack: Pack) -> Iterator[Bookmark]:
    for chapter in pack.chapters:
        yield Bookmark(chapter.title, chapter.entries[0].page)
        yield from (Bookmark(entry.title, entry.page) for entry in chapter.entries)


def bind_pack(parts: PackParts) -> bytes:
    """Put contents and cards behind each other, and numbers, links and bookmarks to them."""
    chapters = parts.pack.chapters
    with pikepdf.open(BytesIO(parts.contents)) as pdf:
        binder = Binder(pdf)
        for card in parts.cards:
            binder.add(card)
        for turn, folios in enumerate(parts.folios):
            binder.stamp(1 + turn * FOLIOS_AT_ONCE, folios)
        binder.link({entry.id: entry.page for chapter in chapters for entry in chapter.entries})
        with pdf.open_outline() as outline:
            outline.root.extend(_bookmark(chapter) for chapter in chapters)
        return binder.write()


def _bookmark(chapter: Chapter) -> pikepdf.OutlineItem:
    strand = pikepdf.OutlineItem(chapter.title, chapter.entries[0].page - 1)
    for entry in chapter.entries:
        strand.children.append(pikepdf.OutlineItem(entry.title, entry.page - 1))
    return strand
