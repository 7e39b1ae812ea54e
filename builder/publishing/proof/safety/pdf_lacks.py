"""Why letters that a PDF holds aren't seen on its page."""

from collections.abc import Iterator, Sequence
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.pdf_ink import (
    list_core_dots,
    measure_elsewhere,
    measure_ink,
)
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage, find_address
from builder.publishing.proof.safety.pdf_picture import Picture
from builder.publishing.proof.safety.pdf_view import PageView, Run
from builder.publishing.proof.safety.sighting import Lack
from builder.sums.contrast import LEAST_FOR_TEXT

Colour = tuple[int, int, int]
_BLACK: Colour = (0, 0, 0)
_WHITE: Colour = (255, 255, 255)
_FAINT = 1.1
"""Contrast of what isn't seen at all, as near as dots tell. Ours."""
_DEEPEST = 15
"""Forms within forms that are looked into."""
_LEAST_CHANGE = 128
"""Of 255: half of what a letter changes from black to white. Ours."""
_LEAST_SHOWN = 0.9
_ELSE = 0.1
"""Share of a letter's ground on which other letters stand where its font lies. Ours."""


def find_lack(
    document: pypdfium2.PdfDocument, number: int, view: PageView, run: Run, unread: Sequence[Letter]
) -> Lack:
    """Tell why letters can't be read, by drawing their page in other ways.

    Words alone on white tell whether they are drawn at all, and whether the font shows what the
    text says; words in two other colours tell whether anything lies over them.
    """
    redrawn = _Redrawn(document, number, view, run)
    for flags in view.flags:
        alone = redrawn.draw(flags & ~pdfium.FPDF_ANNOT, _BLACK, alone=True)
        inks = [measure_ink(alone, letter.box) for letter in unread]
        if all(_FAINT <= ink.contrast < LEAST_FOR_TEXT for ink in inks):
            return Lack.PALE
        if not all(ink.is_read for ink in inks):
            elsewhere = max(measure_elsewhere(alone, letter.box) for letter in unread)
            return Lack.ABSENT if elsewhere > _ELSE else Lack.HIDDEN
    for flags in view.flags:
        pictures = [redrawn.draw(flags, colour, alone=False) for colour in (_BLACK, _WHITE)]
        if not all(_changes(pictures, letter) for letter in unread):
            return Lack.COVERED
    return Lack.PALE


class _Redrawn:
    """A page whose wanted words are painted in another colour, alone or among the rest."""

    def __init__(
        self, document: pypdfium2.PdfDocument, number: int, view: PageView, run: Run
    ) -> None:
        self._document = document
        self._number = number
        self._view = view
        self._run = run

    def draw(self, flags: int, colour: Colour, *, alone: bool) -> Picture:
        """Draw the page anew from its file."""
        page = LetterPage(self._document[self._number])
        try:
            words = page.find_parts(*self._run)
            for part in _list_parts(page.page.raw) if alone else ():
                if find_address(part) not in words:
                    pdfium.FPDFPageObj_SetIsActive(part, False)
            for part in words.values():
                pdfium.FPDFPageObj_SetFillColor(part, *colour, 255)
                pdfium.FPDFPageObj_SetStrokeColor(part, *colour, 255)
            return self._view.draw(page.page, flags)
        finally:
            page.close()


def _changes(pictures: Sequence[Picture], letter: Letter) -> bool:
    """Tell whether a letter shows that it was given another colour."""
    first, second = (list_core_dots(picture, letter.box) for picture in pictures)
    shown = sum(_differ(*pair) for pair in zip(first, second, strict=True))
    return shown >= _LEAST_SHOWN * len(first)


def _differ(first: int, second: int) -> bool:
    return abs((first & 255) - (second & 255)) >= _LEAST_CHANGE


def _list_parts(page: Any) -> Iterator[Any]:
    """Yield everything that a page draws but the forms themselves, those within forms too."""
    count = pdfium.FPDFPage_CountObjects(page)
    waiting = [(pdfium.FPDFPage_GetObject(page, at), 0) for at in range(count)]
    while waiting:
        part, depth = waiting.pop()
        if pdfium.FPDFPageObj_GetType(part) != pdfium.FPDF_PAGEOBJ_FORM:
            yield part
        elif depth < _DEEPEST:
            count = pdfium.FPDFFormObj_CountObjects(part)
            waiting += [(pdfium.FPDFFormObj_GetObject(part, at), depth + 1) for at in range(count)]
