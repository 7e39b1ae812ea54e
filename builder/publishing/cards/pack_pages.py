"""What a pack has besides cards, printed: its contents, and the numbers of its pages.

Loads the PDF engine.
"""

from collections.abc import Sequence

from builder.publishing.cards.html import TEMPLATES, read_style
from builder.publishing.cards.pack_parts import FOLIOS_AT_ONCE, Contents
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.pdf import Layout, Press, open_press
from builder.publishing.cards.proved import write_proved
from builder.publishing.environment import open_templates
from builder.sums.paper import Paper

CONTENTS = "contents.html.j2"
_OVER_FLOOR_POINTS = 1.5


def print_contents(pack: Pack, leaves: Sequence[int]) -> Contents:
    """Print the contents, which name the pages that come behind them, as many as they are.

    ``leaves`` has the pages of each card in turn.
    """
    press = open_press()
    front = _lay_out_contents(pack.number_pages(leaves, before=1), press)
    if front.page_count > 1:
        front = _lay_out_contents(pack.number_pages(leaves, front.page_count), press)
    name = f'the contents of "{pack.name}"'
    return Contents(front.page_count, write_proved(front, name, is_archival=pack.is_archival))


def _lay_out_contents(pack: Pack, press: Press) -> Layout:
    html = (
        open_templates(TEMPLATES)
        .get_template(CONTENTS)
        .render(pack=pack, points=pack.paper.floor_points + _OVER_FLOOR_POINTS)
    )
    return press.lay_out(html, _flowing_style(pack.paper))


def print_folios(paper: Paper, language: str, first: int) -> bytes:
    """Print a sheet of pages that carry nothing but their number.

    A whole pack's at once would take more memory the longer it is.
    """
    pages = range(first, first + FOLIOS_AT_ONCE)
    numbers = "".join(f'<div class="folio"><p>{page}</p></div>' for page in pages)
    size = f"<style>html {{ font-size: {paper.floor_points}pt }}</style>"
    html = f'<html lang="{language}"><title>-</title>{size}<body>{numbers}</body></html>'
    return open_press().lay_out(html, _flowing_style(paper)).write_untagged()


def _flowing_style(paper: Paper) -> str:
    """Return the cards' style for pages that may follow each other."""
    margin = paper.margin_mm
    height = paper.height_mm - 2 * margin
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    page = f"@page {{ {size}; margin: {margin}mm }} .folio {{ height: {height}mm }}"
    return f"{read_style(paper)}\n{page}\nbody {{ height: auto }}"
