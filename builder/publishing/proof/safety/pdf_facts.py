"""What a PDF says of its pages besides what it draws: their unit, variants, and cards to cut."""

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

import pikepdf

from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_plain import is_plain_document, is_plain_page
from builder.sums.paper import PAPERS, SHEET_OF, Paper, find_papers

_DRAWN = frozenset(
    {"/Link", "/FreeText", "/Line", "/Square", "/Circle", "/Polygon", "/PolyLine", "/Highlight"}
    | {"/Underline", "/Squiggly", "/StrikeOut", "/Stamp", "/Caret", "/Ink", "/Text"}
)
"""Notes that look as they say; forms, films and players have looks of their own."""
_OF_SCREEN = 8 | 16
"""Flags of what grows or turns against its page (ISO 32000-2, table 167)."""
_WIDEST_BORDER = 1.0
"""Of a link, in points, as it is where none is told: hardly more than a line (table 166)."""
_NOWHERE = Rectangle(0, 0, 0, 0)
_EVERYWHERE = Rectangle(-1e6, -1e6, 1e6, 1e6)
_LEAST_UNIT = 1e-6
_SIDES = 4


@dataclass(frozen=True, slots=True)
class PageFacts:
    """What a page says of itself."""

    unit: float
    """Points to a unit of the page (ISO 32000-2, table 31, UserUnit)."""
    has_variants: bool
    """Whether print may differ from the screen: by layers, or by notes laid over the page."""
    floor_points: float
    """The smallest type that may stand on this paper; the smallest of all where it is none of
    ours."""
    bare_notes: tuple[Rectangle, ...]
    """Where notes lie that don't say how they look: each reading program has its own idea."""
    is_plain: bool
    """Whether programs surely show and print it alike."""


def read_facts(content: bytes) -> tuple[PageFacts, ...]:
    """Read what a PDF says of each page; raises PdfUnsoundError where that can't be done."""
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            has_layers = "/OCProperties" in pdf.Root
            is_plain = is_plain_document(pdf)
            return tuple(
                _read_page(page, has_layers=has_layers, is_plain=is_plain) for page in pdf.pages
            )
    except (pikepdf.PdfError, pikepdf.PasswordError, ValueError, TypeError) as error:
        raise PdfUnsoundError(str(error)) from error


def _read_page(page: pikepdf.Page, *, has_layers: bool, is_plain: bool) -> PageFacts:
    unit = max(_LEAST_UNIT, float(page.obj.get("/UserUnit", 1)))
    left, bottom, right, top = (float(side) * unit for side in page.cropbox)
    notes = tuple(_list_notes(page))
    return PageFacts(
        unit,
        has_layers or bool(notes),
        _find_floor(page, abs(right - left), abs(top - bottom)),
        tuple(_find_reach(note) for note in notes if _is_bare(note)),
        is_plain and is_plain_page(page),
    )


def _find_floor(page: pikepdf.Page, width: float, height: float) -> float:
    """Return the smallest type of a page's paper; what no sheet can hold is printed smaller."""
    papers = find_papers(width, height)
    cut = [card for paper in papers for card in _list_cards(page, paper)]
    if papers:
        return min(paper.floor_points for paper in (*papers, *cut))
    short, long = sorted((width, height))
    sheets = [(sorted(paper.size_points), paper) for paper in PAPERS.values()]
    grown = min(max(short / sides[0], long / sides[1]) for sides, _ in sheets)
    if grown > 1:
        return grown * max(paper.floor_points for _, paper in sheets)
    return min(paper.floor_points for _, paper in sheets)


def _list_notes(page: pikepdf.Page) -> Iterator[pikepdf.Object]:
    """Yield what is laid over a page; links are no such thing unless they are drawn."""
    notes = page.obj.get("/Annots")
    for note in notes if isinstance(notes, pikepdf.Array) else ():
        if isinstance(note, pikepdf.Dictionary) and _is_laid_over(note):
            yield note


def _is_laid_over(note: pikepdf.Object) -> bool:
    kind = note.get("/Subtype")
    if kind == "/Popup":
        return bool(note.get("/Open"))
    return kind != "/Link" or "/AP" in note or _measure_border(note) > _WIDEST_BORDER


def _measure_border(link: pikepdf.Object) -> float:
    """Return how thick the line is that programs draw around a link."""
    style, border = link.get("/BS"), link.get("/Border")
    if isinstance(style, pikepdf.Dictionary):
        return abs(float(style.get("/W", 1)))
    return abs(float(border[2])) if isinstance(border, pikepdf.Array) and len(border) > 2 else 1.0


def _is_bare(note: pikepdf.Object) -> bool:
    """Tell whether each program has its own idea of a note's looks or place."""
    is_drawn = "/AP" in note and note.get("/Subtype") in _DRAWN
    return not is_drawn or _is_of_screen(note)


def _is_of_screen(note: pikepdf.Object) -> bool:
    return bool(note.get("/Open")) or bool(int(note.get("/F", 0)) & _OF_SCREEN)


def _find_reach(note: pikepdf.Object) -> Rectangle:
    """Return where a note may lie; of one that opens a window or grows that is anywhere."""
    if _is_of_screen(note):
        return _EVERYWHERE
    box = _read_box(note.get("/Rect"))
    more = _measure_border(note) / 2 if note.get("/Subtype") == "/Link" else 0.0
    return Rectangle(box.left - more, box.bottom - more, box.right + more, box.top + more)


def _read_box(box: object) -> Rectangle:
    """Return a rectangle of a file, whose corners may come in any order."""
    if not isinstance(box, pikepdf.Array) or len(box) != _SIDES:
        return _NOWHERE
    left, bottom, right, top = (float(side) for side in box)
    return Rectangle(min(left, right), min(bottom, top), max(left, right), max(bottom, top))


def _list_cards(page: pikepdf.Page, sheet: Paper) -> Iterator[Paper]:
    """Yield the papers of the cards that lie on a sheet to cut, each drawn as one form."""
    for form in page.form_xobjects.values():
        box = _read_box(form.get("/BBox"))
        for paper in find_papers(box.right - box.left, box.top - box.bottom):
            if SHEET_OF.get(paper.id) == sheet.id:
                yield paper
