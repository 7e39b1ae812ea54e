"""Sheets to cut: several cards on one sheet with cut marks, backs behind their fronts.

Each card keeps its tags, so that a sheet can be read aloud card by card.
"""

from collections.abc import Iterator, Sequence
from io import BytesIO

import pikepdf

from builder.publishing.cards.sheet_tags import SheetTags
from builder.publishing.proof.structure.check import Wanted, find_bound_faults
from builder.publishing.proof.structure.fault import stop_on_faults
from builder.publishing.proof.structure.source import Source
from builder.sums.imposition import Cell, Imposition, impose
from builder.sums.paper import PAPERS, SHEET_OF, Paper, mm_to_points

_MARK_POINTS = 0.4
_MARK_MM = (4.5, 9.5)
"""From a sheet's edge: inside what common printers can print."""
_CROSS_MM = 2.5


def print_sheets(cards: Sequence[bytes], paper: Paper, title: str, language: str) -> bytes:
    """Lay finished cards on sheets; where cards have backs, every second sheet carries them.

    BuilderError where the finished tags have a fault.
    """
    plan = impose(paper, PAPERS[SHEET_OF[paper.id]])
    target = BytesIO()
    with pikepdf.new() as pdf:
        tags = SheetTags(pdf, title, language)
        for start in range(0, len(cards), plan.count):
            group = [pikepdf.open(BytesIO(card)) for card in cards[start : start + plan.count]]
            for side in range(max(len(card.pages) for card in group)):
                forms = _add_sheet(pdf, plan, [card.pages[side] for card in group], side)
                for card, form in zip(group, forms, strict=True):
                    tags.take(card.pages[side], card, form, pdf.pages[-1])
            for card in group:
                card.close()
        pdf.save(target, deterministic_id=True)
    content, source = target.getvalue(), Source(language, title, ())
    faults = find_bound_faults(content, Wanted(source, cards=len(cards)), front=None)
    stop_on_faults(faults, "the sheets to cut")
    return content


def _add_sheet(
    pdf: pikepdf.Pdf, plan: Imposition, cards: Sequence[pikepdf.Page], side: int
) -> list[pikepdf.Object]:
    """Draw cards on a new sheet; return the form that draws each."""
    page = pdf.add_blank_page(page_size=plan.sheet.size_points)
    cells = plan.backs if side else plan.fronts
    parts, forms = [], []
    for number, (card, cell) in enumerate(zip(cards, cells, strict=False)):
        form = pdf.copy_foreign(card.as_form_xobject())
        name = page.add_resource(form, pikepdf.Name.XObject, pikepdf.Name(f"/Card{number}"))
        forms.append(form)
        matrix = " ".join(f"{value:.4f}" for value in _matrix(plan, cell, is_back=side > 0))
        parts.append(f"q {matrix} cm {name} Do Q")
    parts += ["/Artifact BMC q", f"{_MARK_POINTS} w", *_draw_marks(plan), "S", "Q EMC"]
    page.contents_add("\n".join(parts).encode())
    return forms


def _matrix(plan: Imposition, cell: Cell, *, is_back: bool) -> tuple[float, ...]:
    """Return how a card is moved and turned (ISO 32000-1, 8.3.3).

    Turned fronts have their head to the left and backs theirs to the right, which is the same
    side of the paper.
    """
    left, bottom = mm_to_points(cell.left_mm), mm_to_points(cell.bottom_mm)
    if not plan.is_turned:
        return (1, 0, 0, 1, left, bottom)
    if is_back:
        return (0, -1, 1, 0, left, bottom + mm_to_points(plan.cell_height_mm))
    return (0, 1, -1, 0, left + mm_to_points(plan.cell_width_mm), bottom)


def _draw_marks(plan: Imposition) -> Iterator[str]:
    """Draw a tick at both ends of each cut and a cross where cuts meet."""
    uprights, levels = plan.cuts_mm
    width, height = plan.sheet.width_mm, plan.sheet.height_mm
    near, far = _MARK_MM
    for x in uprights:
        yield _line(x, near, x, far)
        yield _line(x, height - near, x, height - far)
    for y in levels:
        yield _line(near, y, far, y)
        yield _line(width - near, y, width - far, y)
    for x in uprights:
        for y in levels:
            yield _line(x - _CROSS_MM, y, x + _CROSS_MM, y)
            yield _line(x, y - _CROSS_MM, x, y + _CROSS_MM)


def _line(*ends_mm: float) -> str:
    x1, y1, x2, y2 = (f"{mm_to_points(end):.3f}" for end in ends_mm)
    return f"{x1} {y1} m {x2} {y2} l"
