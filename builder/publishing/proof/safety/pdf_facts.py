"""What a PDF says of its pages besides what it draws: their unit, variants, and cards to cut."""

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

import pikepdf

from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.sums.paper import PAPERS, SHEET_OF, Paper, find_papers

_UNSEEN_NOTES = ("/Link", "/Popup")
_NOWHERE = Rectangle(0, 0, 0, 0)
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


def read_facts(content: bytes) -> tuple[PageFacts, ...]:
    """Read what a PDF says of each page; raises PdfUnsoundError where that can't be done."""
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            has_layers = "/OCProperties" in pdf.Root
            return tuple(_read_page(page, has_layers=has_layers) for page in pdf.pages)
    except (pikepdf.PdfError, pikepdf.PasswordError, ValueError, TypeError) as error:
        raise PdfUnsoundError(str(error)) from error


def _read_page(page: pikepdf.Page, *, has_layers: bool) -> PageFacts:
    unit = max(_LEAST_UNIT, float(page.obj.get("/UserUnit", 1)))
    left, bottom, right, top = (float(side) * unit for side in page.cropbox)
    papers = find_papers(abs(right - left), abs(top - bottom))
    cut = [card for paper in papers for card in _list_cards(page, paper)]
    floors = [paper.floor_points for paper in (*papers, *cut)]
    floor = min(floors, default=min(paper.floor_points for paper in PAPERS.values()))
    notes = tuple(_list_notes(page))
    bare = tuple(_read_box(note.get("/Rect")) for note in notes if "/AP" not in note)
    return PageFacts(unit, has_layers or bool(notes), floor, bare)


def _list_notes(page: pikepdf.Page) -> Iterator[pikepdf.Object]:
    """Yield what is laid over a page; links are no such thing unless they are drawn."""
    notes = page.obj.get("/Annots")
    for note in notes if isinstance(notes, pikepdf.Array) else ():
        if isinstance(note, pikepdf.Dictionary) and (
            note.get("/Subtype") not in _UNSEEN_NOTES or "/AP" in note
        ):
            yield note


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
