"""Packs: the cards of a strand or of the course in one PDF, with contents and page numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from io import BytesIO

import pikepdf

from builder.publishing.cards.html import TEMPLATES, read_style
from builder.publishing.cards.pack_plan import Chapter, Pack
from builder.publishing.cards.pdf import Layout, Press, join_layouts
from builder.publishing.environment import open_templates
from builder.sums.paper import Paper

CONTENTS = "contents.html.j2"
_OVER_FLOOR_POINTS = 1.5


def print_pack(pack: Pack, cards: Mapping[str, Layout], press: Press) -> bytes:
    """Put contents and cards together; the cards' pages are taken as they are."""
    chapters = _number_pages(pack.chapters, cards, before=1)
    front = _lay_out_contents(pack, chapters, press)
    if front.page_count > 1:
        chapters = _number_pages(pack.chapters, cards, front.page_count)
        front = _lay_out_contents(pack, chapters, press)
    ids = [entry.id for chapter in chapters for entry in chapter.entries]
    whole = join_layouts([front, *(cards[name] for name in ids)])
    folios = _lay_out_folios(pack, whole.page_count, press)
    return _finish(whole.write(), folios.write(), chapters)


def _number_pages(
    chapters: Sequence[Chapter], cards: Mapping[str, Layout], before: int
) -> tuple[Chapter, ...]:
    """Give each lesson the number of its first page."""
    numbered, page = [], before + 1
    for chapter in chapters:
        entries = []
        for entry in chapter.entries:
            entries.append(replace(entry, page=page))
            page += cards[entry.id].page_count
        numbered.append(replace(chapter, entries=tuple(entries)))
    return tuple(numbered)


def _lay_out_contents(pack: Pack, chapters: Sequence[Chapter], press: Press) -> Layout:
    html = (
        open_templates(TEMPLATES)
        .get_template(CONTENTS)
        .render(pack=pack, chapters=chapters, points=pack.paper.floor_points + _OVER_FLOOR_POINTS)
    )
    return press.lay_out(html, _flowing_style(pack.paper))


def _lay_out_folios(pack: Pack, pages: int, press: Press) -> Layout:
    """Lay out pages that carry nothing but their number."""
    numbers = "".join(f'<div class="folio"><p>{page}</p></div>' for page in range(1, pages + 1))
    size = f"<style>html {{ font-size: {pack.paper.floor_points}pt }}</style>"
    html = f'<html lang="{pack.language}"><title>-</title>{size}<body>{numbers}</body></html>'
    return press.lay_out(html, _flowing_style(pack.paper))


def _flowing_style(paper: Paper) -> str:
    """Return the cards' style for pages that may follow each other."""
    margin = paper.margin_mm
    height = paper.height_mm - 2 * margin
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    page = f"@page {{ {size}; margin: {margin}mm }} .folio {{ height: {height}mm }}"
    return f"{read_style(paper)}\n{page}\nbody {{ height: auto }}"


def _finish(content: bytes, folios: bytes, chapters: Sequence[Chapter]) -> bytes:
    """Stamp page numbers and add bookmarks."""
    with pikepdf.open(BytesIO(content)) as pdf, pikepdf.open(BytesIO(folios)) as stamps:
        for number, (page, stamp) in enumerate(zip(pdf.pages, stamps.pages, strict=True), 1):
            _stamp(pdf, page, stamp, f"/Folio{number}")
        with pdf.open_outline() as outline:
            outline.root.extend(_bookmark(chapter) for chapter in chapters)
        target = BytesIO()
        pdf.save(target, deterministic_id=True)
    return target.getvalue()


def _stamp(pdf: pikepdf.Pdf, page: pikepdf.Page, stamp: pikepdf.Page, name: str) -> None:
    """Lay a number over a page, marked as no part of its text (ISO 32000-1, 14.8.2.2).

    The name must be new: pages share one table of names.
    """
    form = pdf.copy_foreign(stamp.as_form_xobject())
    page.add_resource(form, pikepdf.Name.XObject, pikepdf.Name(name))
    page.contents_add(b"q", prepend=True)
    page.contents_add(f"Q /Artifact <</Type /Pagination>> BDC q {name} Do Q EMC".encode())


def _bookmark(chapter: Chapter) -> pikepdf.OutlineItem:
    strand = pikepdf.OutlineItem(chapter.title, chapter.entries[0].page - 1)
    for entry in chapter.entries:
        strand.children.append(pikepdf.OutlineItem(entry.title, entry.page - 1))
    return strand
