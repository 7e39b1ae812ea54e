"""Why letters that a PDF holds aren't seen on its page."""

from collections.abc import Iterator, Sequence
from ctypes import addressof, byref, c_uint
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.pdf_ink import list_core_dots, measure_ink
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage
from builder.publishing.proof.safety.pdf_view import PageView, Run
from builder.publishing.proof.safety.sighting import Lack

_BLACK = (0, 0, 0)
_DEEPEST = 15
"""Forms within forms that are looked into."""
_LEAST_CHANGE = 64
"""Of 255: half of what a letter changes that is given another colour. Ours."""
_LEAST_SHOWN = 0.9
_ELSE = 0.1
"""Share of a letter's ground on which other letters stand where its font lies. Ours."""


def find_lack(
    document: pypdfium2.PdfDocument, number: int, view: PageView, run: Run, unread: Sequence[Letter]
) -> Lack:
    """Tell why letters can't be read, by drawing their page in other ways.

    Words alone on white tell whether they are drawn at all, and whether the font shows what the
    text says; words in another colour tell whether anything lies over them.
    """
    lack = _judge_alone(document[number], view, run, unread)
    if lack is None:
        is_shown = all(
            _shows_over(document[number], view, run, unread, place)
            for place in range(len(view.flags))
        )
        lack = Lack.PALE if is_shown else Lack.COVERED
    return lack


def _judge_alone(
    fresh: pypdfium2.PdfPage, view: PageView, run: Run, unread: Sequence[Letter]
) -> Lack | None:
    page = LetterPage(fresh)
    try:
        words = page.find_objects(*run)
        for part in _list_parts(fresh.raw):
            if _find_address(part) not in words:
                pdfium.FPDFPageObj_SetIsActive(part, False)
        for part in words.values():
            _paint(part, _BLACK)
        picture = view.draw(fresh)
    finally:
        page.close()
    inks = [measure_ink(picture, letter.box) for letter in unread]
    if all(ink.is_read for ink in inks):
        return None
    return Lack.ABSENT if any(ink.foreign > _ELSE for ink in inks) else Lack.HIDDEN


def _shows_over(
    fresh: pypdfium2.PdfPage, view: PageView, run: Run, unread: Sequence[Letter], place: int
) -> bool:
    """Tell whether letters change where they are given the opposite colour."""
    page = LetterPage(fresh)
    try:
        for part in page.find_objects(*run).values():
            _paint(part, _find_opposite(part))
        changed = view.draw(fresh, view.flags[place])
    finally:
        page.close()
    for letter in unread:
        before = list_core_dots(view.seen[place], letter.box)
        after = list_core_dots(changed, letter.box)
        shown = sum(_differ(*pair) for pair in zip(before, after, strict=True))
        if shown < _LEAST_SHOWN * len(before):
            return False
    return True


def _differ(first: int, second: int) -> bool:
    return any(
        abs((first >> place & 255) - (second >> place & 255)) >= _LEAST_CHANGE
        for place in (0, 8, 16)
    )


def _paint(part: object, colour: tuple[int, int, int]) -> None:
    pdfium.FPDFPageObj_SetFillColor(part, *colour, 255)
    pdfium.FPDFPageObj_SetStrokeColor(part, *colour, 255)


def _find_opposite(part: object) -> tuple[int, int, int]:
    parts = tuple(c_uint() for _ in range(4))
    pdfium.FPDFPageObj_GetFillColor(part, *map(byref, parts))
    red, green, blue = (0 if channel.value >= 128 else 255 for channel in parts[:3])
    return red, green, blue


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


def _find_address(part: Any) -> int:
    return int(addressof(part.contents))
