"""A sheet to a finished PDF that was read back."""

from dataclasses import dataclass, replace
from functools import cache, partial
from itertools import chain

from builder import rules
from builder.errors import BuilderError
from builder.findings import Finding, Place
from builder.publishing.cards.pdf import Layout, open_press
from builder.publishing.cards.proved import write_proved
from builder.publishing.cards.typeface import find_lacking_signs
from builder.publishing.client_sheet.html import find_floor_points, read_style, write_sheet
from builder.publishing.client_sheet.setting import (
    END_MARK,
    LARGE,
    MOST_EMPTY_SHARE,
    ROOMY,
    SETTINGS,
    TYPE_FOR_A_BREAK,
    SheetSetting,
)
from builder.publishing.client_sheet.view import SheetForm, SheetView
from builder.publishing.client_sheet.words import list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.publishing.proof.safety.printed import find_unseen_words
from builder.sums.paper import Paper

_OTHER_LETTERS = "write it in Latin, Greek or Cyrillic letters"
_CAUTIONS = ("caution", "ask first", "own caution", "notice", "stop sign")
"""How the names of words begin that keep people safe."""
_AGAIN = "make it again, and report it as a fault of the tool if it stays"


@dataclass(frozen=True, slots=True)
class PrintedSheet:
    """A finished sheet."""

    pdf: bytes
    pages: int
    setting: SheetSetting


def print_sheet(view: SheetView, form: SheetForm) -> PrintedSheet:
    """Print a sheet and read it back; BuilderError where anything is missing or too small."""
    wanted = list_wanted_words(view)
    lacking = "".join(find_lacking_signs(wanted.values()))
    if lacking:
        raise BuilderError(f'the typeface has no "{lacking}"', _OTHER_LETTERS)
    layout, setting = _fit(view, form)
    pdf = write_proved(layout, "the sheet")
    pages = read_pdf(pdf)
    missing = find_missing_texts(join_readings(pages), wanted)
    if missing:
        raise BuilderError(f"the finished sheet lacks the {missing[0]}", _AGAIN)
    cautions = {name: words for name, words in wanted.items() if name.startswith(_CAUTIONS)}
    for name, lack in find_unseen_words(pdf, cautions).items():
        raise BuilderError(f"the {name} of the finished sheet can't be read: {lack}", _AGAIN)
    if any(page.has_words_outside for page in pages):
        raise BuilderError("words of the sheet left its page", _AGAIN)
    smallest = min(page.smallest_points for page in pages)
    if smallest < find_floor_points(form):
        raise BuilderError(f"the sheet has type of {smallest:g} pt", _AGAIN)
    return PrintedSheet(pdf, len(pages), setting)


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


def _fit(view: SheetView, form: SheetForm) -> tuple[Layout, SheetSetting]:
    """Return the most roomy setting at which a sheet is short, or of all where none is."""
    if form is SheetForm.LARGE:
        return _lay_out(view, LARGE), LARGE
    lay_out = cache(partial(_lay_out, view))
    for most_pages, settings in SETTINGS:
        if lay_out(ROOMY).page_count > 2 * most_pages:  # smaller type never halves a sheet
            continue
        ends = (settings[0], settings[-1])
        if any(lay_out(each).page_count <= most_pages for each in ends):
            fitting = (each for each in settings if lay_out(each).page_count <= most_pages)
            first = next(fitting)
            near = (each for each in fitting if each.points >= first.points - TYPE_FOR_A_BREAK)
            filled = (
                each for each in chain((first,), near) if not _is_hollow(lay_out(each), view.paper)
            )
            setting = next(filled, first)
            return lay_out(setting), setting
    return lay_out(ROOMY), ROOMY


def _is_hollow(layout: Layout, paper: Paper) -> bool:
    """Tell whether the first of several pages ends far above its foot."""
    ends = [
        mark.top_mm
        for name, mark in layout.marks.items()
        if name.startswith(END_MARK) and mark.page == 0
    ]
    empty_mm = paper.height_mm - paper.margin_mm - max(ends, default=0.0)
    return layout.page_count > 1 and empty_mm > MOST_EMPTY_SHARE * paper.height_mm


def _lay_out(view: SheetView, setting: SheetSetting) -> Layout:
    style = read_style(view.paper, setting.points)
    return open_press().lay_out_apart(write_sheet(view, setting), style)
