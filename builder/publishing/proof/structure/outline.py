"""Whether the bookmarks of a PDF lead where they say, and its page labels fit (ours)."""

from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.objects import (
    Key,
    list_items,
    read_dictionary,
    read_number_tree,
    read_text,
)

_MOST_ENTRIES = 100_000


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of an outline."""

    title: str
    page: int
    """From 1; 0 where it leads to no page."""


def find_outline_faults(pdf: pikepdf.Pdf, wanted: tuple[Bookmark, ...]) -> Iterator[Fault]:
    """Yield bookmarks that are missing, too many or lead elsewhere, and labels without a page."""
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages, 1)}
    found = tuple(_list_bookmarks(pdf, pages))
    if wanted and found != wanted:
        pairs = zip((*found, None), (*wanted, None), strict=False)
        own, other = next((pair for pair in pairs if pair[0] != pair[1]), (None, None))
        yield Fault(
            rules.PDF_OUTLINE_WRONG, f"its outline has {_tell(own)} where {_tell(other)} belongs"
        )
    elif any(not bookmark.page for bookmark in found):
        yield Fault(rules.PDF_OUTLINE_WRONG, "an entry of its outline leads nowhere")
    labels = read_number_tree(read_dictionary(pdf.Root, "/PageLabels"))
    if any(not 0 <= number < len(pages) for number in labels):
        yield Fault(rules.PDF_OUTLINE_WRONG, "it has labels for pages that aren't there")


def _tell(bookmark: Bookmark | None) -> str:
    return "nothing" if bookmark is None else f'"{bookmark.title}" on page {bookmark.page}'


def _list_bookmarks(pdf: pikepdf.Pdf, pages: dict[Key, int]) -> Iterator[Bookmark]:
    waiting: list[object] = [read_dictionary(pdf.Root, "/Outlines").get("/First")]
    for _ in range(_MOST_ENTRIES):
        if not waiting:
            return
        entry = waiting.pop()
        if isinstance(entry, pikepdf.Dictionary):
            spot = entry.get("/Dest", read_dictionary(entry, "/A").get("/D"))
            yield Bookmark(read_text(entry, "/Title") or "", _find_page(pdf, spot, pages))
            waiting += [entry.get("/Next"), entry.get("/First")]


def _find_page(pdf: pikepdf.Pdf, spot: object, pages: dict[Key, int]) -> int:
    if isinstance(spot, pikepdf.String):
        names = read_dictionary(read_dictionary(pdf.Root, "/Names"), "/Dests")
        spot = pikepdf.NameTree(names).get(str(spot)) if len(names) else None
    page = next(iter(list_items(spot)), None)
    return pages.get(page.objgen, 0) if isinstance(page, pikepdf.Dictionary) else 0
