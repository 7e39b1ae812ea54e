"""One page as it is seen, against the letters that it should show."""

from collections.abc import Collection, Sequence

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.own_type import Sheet, open_own_type
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_ink import Ink, measure_letter, measure_letters
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage
from builder.publishing.proof.safety.pdf_overlap import find_overset
from builder.publishing.proof.safety.pdf_picture import (
    Picture,
    Window,
    draw,
    open_window,
)

_SCREEN = pdfium.FPDF_ANNOT
_PRINT = pdfium.FPDF_ANNOT | pdfium.FPDF_PRINTING
_NUDGES = (
    *((-0.34, 0.0), (0.34, 0.0), (0.0, 0.5), (0.0, -0.5)),
    *((-0.34, 0.5), (-0.34, -0.5), (0.34, 0.5), (0.34, -0.5)),
)
"""Dots to the right and up by which letters are moved for a second look."""
_NOWHERE = Rectangle(0, 0, 0, 0)
Run = tuple[int, int]
"""Words on a page: the index of their first letter and of their last."""


class PageView:
    """A page with a picture of the part where wanted words stand."""

    def __init__(self, page: LetterPage, runs: Collection[Run], *, has_variants: bool) -> None:
        self.page = page
        self._letters = {run: page.read_letters(*run) for run in runs}
        every = dict.fromkeys(letter for found in self._letters.values() for letter in found)
        self._inside = [letter for letter in every if page.frame.holds(letter.box)]
        self._overset = find_overset(self._inside)
        self._window = self._open_window()
        self.flags = (_SCREEN, _PRINT) if has_variants else (_SCREEN,)
        self._drawn = [draw(self._window, page.page, flags) for flags in self.flags]
        self._alone = self._draw_alone()
        self.seen = self._compare(self._alone)

    def list_letters(self, run: Run) -> tuple[Letter, ...]:
        """Return the letters of wanted words."""
        return self._letters[run]

    def is_overset(self, letters: Collection[Letter]) -> bool:
        """Tell whether any of some letters and another wanted one stand on each other."""
        return not self._overset.isdisjoint(letters)

    def draw(self, page: object, flags: int = 0) -> Picture:
        """Draw what was made of this page, against the letters that should be there."""
        return Picture(self._window, draw(self._window, page, flags), self._alone)

    def measure(self, letters: Sequence[Letter]) -> dict[Letter, Ink]:
        """Measure letters on the screen and in print, each where it can be read less.

        The library sets a letter at the nearest third of a dot, or the one beside it; so what
        can't be read is held against letters that are moved by as much.
        """
        found = [measure_letters(seen, letters) for seen in self.seen]
        for across, up in _NUDGES:
            unread = [[each for each in letters if not inks[each].is_read] for inks in found]
            if not any(unread):
                break
            moved = self._compare(self._draw_alone(across, up))
            for picture, inks, some in zip(moved, found, unread, strict=True):
                inks |= {
                    each: max(inks[each], measure_letter(picture, each), key=_rank) for each in some
                }
        return {letter: min((inks[letter] for inks in found), key=_rank) for letter in letters}

    def _open_window(self) -> Window:
        boxes = [letter.box for letter in self._inside]
        return open_window(self.page.frame, Rectangle.around(boxes) if boxes else _NOWHERE)

    def _compare(self, alone: bytes) -> list[Picture]:
        return [Picture(self._window, drawn, alone) for drawn in self._drawn]

    def _draw_alone(self, across: float = 0.0, up: float = 0.0) -> bytes:
        """Draw the wanted letters alone, moved by some dots."""
        pictures: list[bytes] = []
        window, frame = self._window, self.page.frame
        open_own_type().paint(
            self._inside,
            Sheet(frame.width, frame.height, across / window.dots_across, up / window.dots_down),
            lambda page: pictures.append(draw(window, page)),
        )
        return pictures[0]


def _rank(ink: Ink) -> tuple[bool, float]:
    return (ink.is_read, ink.contrast)
