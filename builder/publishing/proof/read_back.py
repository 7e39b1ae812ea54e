"""Proof of finished work: the words that must stand on it, read from the file itself."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from ctypes import byref, c_double
from dataclasses import dataclass

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.errors import BuilderError

_NEITHER = re.compile(r"[\W_]+")
"""Neither letters nor digits, as ``str.isalnum`` tells them."""
_UNREADABLE = "a letter of the finished file has no place on its page"
_SIZE_DECIMALS = 2
"""Sizes are drawn as hundredths at best."""


@dataclass(frozen=True, slots=True)
class PageReading:
    """What can be read on one page of a PDF."""

    text: str
    smallest_points: float
    """The smallest type on the page; 0 on a page without words."""
    has_words_outside: bool
    """Whether a letter lies beyond the paper's edge."""
    width_points: float
    height_points: float


def find_missing_texts(text: str, wanted: Mapping[str, str]) -> tuple[str, ...]:
    """Return the names of wanted texts that don't stand in a text.

    Letters and digits count; spaces, hyphens, line breaks and ligatures don't.
    """
    letters = fold_text(text)
    return tuple(name for name, words in wanted.items() if fold_text(words) not in letters)


def fold_text(text: str) -> str:
    """Bring a text down to its letters and digits, ligatures taken apart."""
    plain = unicodedata.normalize("NFKC", text).casefold()
    return _NEITHER.sub("", plain)


def read_pdf(content: bytes) -> tuple[PageReading, ...]:
    """Read every page of a finished PDF."""
    document = pypdfium2.PdfDocument(content)
    try:
        return tuple(_read_page(document[number]) for number in range(len(document)))
    finally:
        document.close()


def join_readings(pages: Iterable[PageReading]) -> str:
    """Return the words of several pages as one text."""
    return "\n".join(page.text for page in pages)


def _read_page(page: pypdfium2.PdfPage) -> PageReading:
    words = page.get_textpage()
    width, height = page.get_size()
    ruler = _Ruler(words)
    sizes: list[float] = []
    outside = False
    for index in range(words.count_chars()):
        if pdfium.FPDFText_GetUnicode(words, index) <= ord(" "):
            continue
        sizes.append(ruler.measure(index))
        left, bottom, right, top = ruler.find_box(index)
        outside |= left < 0 or bottom < 0 or right > width or top > height
    smallest = round(min(sizes, default=0.0), _SIZE_DECIMALS)
    return PageReading(words.get_text_range(), smallest, outside, width, height)


class _Ruler:
    """Measures letters of a page; what the reader fills in is made once for all letters."""

    def __init__(self, words: pypdfium2.PdfTextPage) -> None:
        self._words = words.raw
        self._matrix = pdfium.FS_MATRIX()
        self._box = tuple(c_double() for _ in range(4))
        self._matrix_at = byref(self._matrix)
        self._box_at = tuple(byref(side) for side in self._box)

    def measure(self, index: int) -> float:
        """Return a letter's size in points: its font's size as the page scales it."""
        pdfium.FPDFText_GetMatrix(self._words, index, self._matrix_at)
        scale = (self._matrix.c**2 + self._matrix.d**2) ** 0.5
        return float(pdfium.FPDFText_GetFontSize(self._words, index) * scale)

    def find_box(self, index: int) -> tuple[float, float, float, float]:
        """Return the left, bottom, right and top of a letter in points."""
        left, right, bottom, top = self._box
        if not pdfium.FPDFText_GetCharBox(self._words, index, *self._box_at):
            raise BuilderError(_UNREADABLE, "report it as a fault of the tool")
        return left.value, bottom.value, right.value, top.value
