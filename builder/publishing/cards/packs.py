"""Packs: finished cards of a strand or of the course in one PDF, with contents and page numbers.

The cards are taken as they are, tags and all: nothing is laid out or drawn a second time.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from io import BytesIO

import pikepdf

from builder.publishing.cards.binding import Binder
from builder.publishing.cards.html import TEMPLATES, read_style
from builder.publishing.cards.pack_plan import Chapter, Pack
from builder.publishing.cards.pdf import Layout, Press, open_press
from builder.publishing.environment import open_templates
from builder.sums.paper import Paper

CONTENTS = "contents.html.j2"
_OVER_FLOOR_POINTS = 1.5
FOLIOS_AT_ONCE = 32
_MOST_FOLIOS = 64
"""Kept by a worker (ours), of 10 kB each."""


def print_pack(pack: Pack, cards: Sequence[bytes]) -> bytes:
    """Put contents and cards together; the cards come in the order of the contents."""
    chapters, front = _print_contents(pack, cards)
    starts = {entry.id: entry.page for chapter in chapters for entry in chapter.entries}
    with pikepdf.open(BytesIO(front)) as pdf:
        binder = Binder(pdf)
        for card in cards:
            binder.add(card)
        for first in range(1, len(pdf.pages) + 1, FOLIOS_AT_ONCE):
            binder.stamp(first, print_folios(pack.paper, pack.language, first))
        binder.link(starts)
        with pdf.open_outline() as outline:
            outline.root.extend(_bookmark(chapter) for chapter in chapters)
        return binder.write()


def _print_contents(pack: Pack, cards: Sequence[bytes]) -> tuple[Sequence[Chapter], bytes]:
    """Print the contents, which name the pages that come behind them, as many as they are."""
    leaves = []
    for card in cards:
        with pikepdf.open(BytesIO(card)) as pdf:
            leaves.append(len(pdf.pages))
    press = open_press()
    chapters = _number_pages(pack.chapters, leaves, before=1)
    front = _lay_out_contents(pack, chapters, press)
    if front.page_count > 1:
        chapters = _number_pages(pack.chapters, leaves, front.page_count)
        front = _lay_out_contents(pack, chapters, press)
    return chapters, front.write()


def _number_pages(
    chapters: Sequence[Chapter], leaves: Sequence[int], before: int
) -> tuple[Chapter, ...]:
    """Give each lesson the number of its first page; ``leaves`` has the pages of each in turn."""
    numbered, page, counts = [], before + 1, iter(leaves)
    for chapter in chapters:
        entries = []
        for entry in chapter.entries:
            entries.append(replace(entry, page=page))
            page += next(counts)
        numbered.append(replace(chapter, entries=tuple(entries)))
    return tuple(numbered)


def _lay_out_contents(pack: Pack, chapters: Sequence[Chapter], press: Press) -> Layout:
    html = (
        open_templates(TEMPLATES)
        .get_template(CONTENTS)
        .render(pack=pack, chapters=chapters, points=pack.paper.floor_points + _OVER_FLOOR_POINTS)
    )
    return press.lay_out(html, _flowing_style(pack.paper))


@lru_cache(maxsize=_MOST_FOLIOS)
def print_folios(paper: Paper, language: str, first: int) -> bytes:
    """Print some pages that carry nothing but their number; all packs of a paper share them.

    A whole pack's at once would take more memory the longer it is.
    """
    pages = range(first, first + FOLIOS_AT_ONCE)
    numbers = "".join(f'<div class="folio"><p>{page}</p></div>' for page in pages)
    size = f"<style>html {{ font-size: {paper.floor_points}pt }}</style>"
    html = f'<html lang="{language}"><title>-</title>{size}<body>{numbers}</body></html>'
    return open_press().lay_out(html, _flowing_style(paper)).write()


def _flowing_style(paper: Paper) -> str:
    """Return the cards' style for pages that may follow each other."""
    margin = paper.margin_mm
    height = paper.height_mm - 2 * margin
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    page = f"@page {{ {size}; margin: {margin}mm }} .folio {{ height: {height}mm }}"
    return f"{read_style(paper)}\n{page}\nbody {{ height: auto }}"


def _bookmark(chapter: Chapter) -> pikepdf.OutlineItem:
    strand = pikepdf.OutlineItem(chapter.title, chapter.entries[0].page - 1)
    for entry in chapter.entries:
        strand.children.append(pikepdf.OutlineItem(entry.title, entry.page - 1))
    return strand
