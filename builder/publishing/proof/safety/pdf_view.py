"""One page as it is seen, against the letters that it should show."""

from collections.abc import Collection, Sequence
from functools import reduce

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.own_type import open_own_type
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_ink import Ink, measure_letters
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage
from builder.publishing.proof.safety.pdf_picture import (
    Picture,
    Window,
    draw,
    open_window,
)

_SCREEN = pdfium.FPDF_ANNOT
_PRINT = pdfium.FPDF_ANNOT | pdfium.FPDF_PRINTING
Run = tuple[int, int]
"""Words on a page: the index of their first letter and of their last."""


class PageView:
    """A page with a picture of the part where wanted words stand."""

    def __init__(self, page: LetterPage, runs: Collection[Run], *, has_variants: bool) -> None:
        self.page = page
        self._letters = {run: page.read_letters(*run) for run in runs}
        every = dict.fromkeys(letter for found in self._letters.values() for letter in found)
        inside = [letter for letter in every if page.frame.holds(letter.box)]
        nowhere = Rectangle(0, 0, 0, 0)
        boxes = [letter.box for letter in inside]
        self.window = open_window(page.frame, reduce(Rectangle.join, boxes) if boxes else nowhere)
        self.flags = (_SCREEN, _PRINT) if has_variants else (_SCREEN,)
        self._alone = _draw_alone(self.window, page, inside)
        self.seen = tuple(self.draw(page.page, flags) for flags in self.flags)

    def draw(self, page: object, flags: int = 0) -> Picture:
        """Draw this page, or what was made of it, against the letters that should be there."""
        return Picture(self.window, draw(self.window, page, flags), self._alone)

    def list_letters(self, run: Run) -> tuple[Letter, ...]:
        """Return the letters of wanted words."""
        return self._letters[run]

    def measure(self, letters: Sequence[Letter]) -> dict[Letter, Ink]:
        """Measure letters on the screen and in print, each where it can be read less."""
        found = [measure_letters(seen, letters) for seen in self.seen]
        return {letter: min((inks[letter] for inks in found), key=_rank) for letter in letters}


def _rank(ink: Ink) -> tuple[bool, float]:
    return (ink.is_read, ink.contrast)


def _draw_alone(window: Window, page: LetterPage, letters: Collection[Letter]) -> bytes:
    pictures: list[bytes] = []
    size = (page.frame.width, page.frame.height)
    open_own_type().paint(letters, size, lambda painted: pictures.append(draw(window, painted)))
    return pictures[0]
