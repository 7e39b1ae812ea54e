"""A sheet to a finished PDF that was read back."""

from dataclasses import dataclass, replace

from builder import rules
from builder.errors import BuilderError
from builder.findings import Finding, Place
from builder.publishing.cards.pdf import Layout, open_press
from builder.publishing.cards.typeface import find_lacking_signs
from builder.publishing.client_sheet.html import find_floor_points, read_style, write_sheet
from builder.publishing.client_sheet.view import SheetForm, SheetView
from builder.publishing.client_sheet.words import list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf

_REGULAR_POINTS = (10.5, 10.0, 9.5, 9.0)
_LARGE_POINTS = 18.0
_BEST_PAGES = 2
"""A sheet of one leaf, printed on both sides; the type gives way for it, down to its floor."""
_OTHER_LETTERS = "write it in Latin, Greek or Cyrillic letters"
_AGAIN = "make it again, and report it as a fault of the tool if it stays"


@dataclass(frozen=True, slots=True)
class PrintedSheet:
    """A finished sheet."""

    pdf: bytes
    pages: int
    points: float


def print_sheet(view: SheetView, form: SheetForm) -> PrintedSheet:
    """Print a sheet and read it back; BuilderError where anything is missing or too small."""
    wanted = list_wanted_words(view)
    lacking = "".join(find_lacking_signs(wanted.values()))
    if lacking:
        raise BuilderError(f'the typeface has no "{lacking}"', _OTHER_LETTERS)
    layout, points = _fit(view, form)
    pdf = layout.write()
    pages = read_pdf(pdf)
    missing = find_missing_texts(join_readings(pages), wanted)
    if missing:
        raise BuilderError(f"the finished sheet lacks the {missing[0]}", _AGAIN)
    if any(page.has_words_outside for page in pages):
        raise BuilderError("words of the sheet left its page", _AGAIN)
    smallest = min(page.smallest_points for page in pages)
    if smallest < find_floor_points(form):
        raise BuilderError(f"the sheet has type of {smallest:g} pt", _AGAIN)
    return PrintedSheet(pdf, len(pages), points)


def replace_lacking_signs(view: SheetView, place: Place) -> tuple[SheetView, tuple[Finding, ...]]:
    """Put the id in place of a name that the typeface can't print, and leave such a goal out."""
    findings = []
    lacking = "".join(find_lacking_signs([view.name]))
    if lacking:
        findings.append(_tell(lacking, f"the name of {view.person_id}", "the id stands", place))
        view = replace(view, name=view.person_id)
    lacking = "".join(find_lacking_signs([view.goal]))
    if lacking:
        findings.append(_tell(lacking, f"the goal of {view.person_id}", "nothing stands", place))
        view = replace(view, goal="")
    return view, tuple(findings)


def _tell(lacking: str, part: str, does: str, place: Place) -> Finding:
    return rules.TEXT_LOST.at(
        place,
        f'the typeface has no "{lacking}" for {part}, and {does} on the sheet instead',
        _OTHER_LETTERS,
    )


def _fit(view: SheetView, form: SheetForm) -> tuple[Layout, float]:
    """Return the largest type at which a sheet is short, or the largest of all where none is."""
    if form is SheetForm.LARGE:
        return _lay_out(view, form, _LARGE_POINTS), _LARGE_POINTS
    first = _lay_out(view, form, _REGULAR_POINTS[0])
    for points in _REGULAR_POINTS:
        layout = first if points == _REGULAR_POINTS[0] else _lay_out(view, form, points)
        if layout.page_count <= _BEST_PAGES:
            return layout, points
    return first, _REGULAR_POINTS[0]


def _lay_out(view: SheetView, form: SheetForm, points: float) -> Layout:
    style = read_style(view.paper, points)
    return open_press().lay_out(write_sheet(view, form, points), style)
