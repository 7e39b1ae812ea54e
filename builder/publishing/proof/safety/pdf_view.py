"""One page as it is seen, against the letters that it should show."""

from collections.abc import Collection
from functools import reduce

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.own_type import open_own_type
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_ink import Ink, measure_ink
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage
from builder.publishing.proof.safety.pdf_picture import (
    Picture,
    Window,
    draw_colours,
    draw_greys,
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
        self.seen = tuple(draw_colours(self.window, page.page, flags) for flags in self.flags)
        self.alone = _draw_alone(self.window, page, inside)

    def list_letters(self, run: Run) -> tuple[Letter, ...]:
        """Return the letters of wanted words."""
        return self._letters[run]

    def measure(self, letter: Letter) -> Ink:
        """Measure a letter, on the screen or in print, wherever it can be read less."""
        inks = [measure_ink(seen, self.alone, letter.box) for seen in self.seen]
        return min(inks, key=lambda ink: (ink.is_read, ink.contrast))


def _draw_alone(window: Window, page: LetterPage, letters: Collection[Letter]) -> Picture:
    pictures: list[Picture] = []
    size = (page.frame.width, page.frame.height)
    open_own_type().paint(
        letters, size, lambda painted: pictures.append(draw_greys(window, painted))
    )
    return pictures[0]
