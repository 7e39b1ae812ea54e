"""The letters of a finished PDF: what they say, where they stand, in which type."""

import ctypes
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import hypot
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.safety.pdf_frame import Frame, Matrix, Rectangle

_LONGEST_NAME = 200
_UNDRAWN = (pdfium.FPDF_TEXTRENDERMODE_INVISIBLE, pdfium.FPDF_TEXTRENDERMODE_CLIP)
_SAME_POINTS = 0.001
_SIZE_DECIMALS = 2
"""Sizes are drawn as hundredths at best."""


@dataclass(frozen=True, slots=True)
class Letter:
    """One glyph as its page tells of it, in points from the seen page's lower left corner."""

    at: int
    """Which of the page's letters it is, from 0."""
    text: str
    """More than one sign for a ligature."""
    face: str
    """The font's name without the tag of a subset."""
    matrix: Matrix
    """From an em of 1 to points."""
    x: float
    y: float
    box: Rectangle
    is_drawn: bool
    """Whether its mode and colour let it show at all."""

    def __hash__(self) -> int:
        """Return its number, which tells it from the other letters of its page."""
        return self.at

    @property
    def size_points(self) -> float:
        """Return the em's height across the line, or its width where that is less."""
        a, b, c, d = self.matrix
        width = hypot(a, b)
        height = abs(a * d - b * c) / width if width else 0.0
        return round(min(width, height), _SIZE_DECIMALS)


class LetterPage:
    """A page that is open for reading."""

    def __init__(self, page: pypdfium2.PdfPage) -> None:
        self.page = page
        self.frame = Frame(page)
        self.words = page.get_textpage()
        count = self.words.count_chars()
        self._signs = [chr(pdfium.FPDFText_GetUnicode(self.words, at)) for at in range(count)]

    def list_folded(self) -> Iterator[tuple[str, int]]:
        """Yield every letter as texts are compared, with the index of its glyph."""
        for at, sign in enumerate(self._signs):
            if sign.isascii():
                after = at + 1
                if after == len(self._signs) or self._signs[after].isascii():
                    for letter in _fold(sign):
                        yield letter, at
                    continue
            if not unicodedata.combining(sign):
                for letter in fold_text("".join(self._list_cluster(at))):
                    yield letter, at

    def read_letters(self, first: int, last: int) -> tuple[Letter, ...]:
        """Read what is drawn from one index to another; spaces draw nothing."""
        reader = _Reader(self.words, self.frame)
        runs: list[tuple[tuple[float, float], int, str]] = []
        for at in range(first, last + 1):
            sign = self._signs[at]
            if not sign.isprintable() or sign.isspace():
                continue
            origin = reader.find_origin(at)
            if runs and _is_same(runs[-1][0], origin):
                runs[-1] = (origin, runs[-1][1], runs[-1][2] + sign)
            else:
                runs.append((origin, at, sign))
        return tuple(reader.read(at, text, origin) for origin, at, text in runs)

    def find_parts(self, first: int, last: int) -> dict[int, object]:
        """Return the parts of the page that draw letters, by their address."""
        parts = (pdfium.FPDFText_GetTextObject(self.words, at) for at in range(first, last + 1))
        return {find_address(part): part for part in parts if part}

    def close(self) -> None:
        """Let go of the page."""
        self.words.close()
        self.page.close()

    def _list_cluster(self, at: int) -> Iterator[str]:
        """Yield a sign and the marks that are set over it."""
        yield self._signs[at]
        for sign in self._signs[at + 1 :]:
            if not unicodedata.combining(sign):
                return
            yield sign


def find_address(part: Any) -> int:
    """Return what tells one part of a page from another; 0 for none."""
    return ctypes.addressof(part.contents) if part else 0


@lru_cache(maxsize=256)
def _fold(sign: str) -> str:
    return fold_text(sign)


def _is_same(first: tuple[float, float], second: tuple[float, float]) -> bool:
    return all(abs(a - b) < _SAME_POINTS for a, b in zip(first, second, strict=True))


@dataclass(frozen=True, slots=True)
class _Setting:
    """What all letters of one part of a page have in common."""

    face: str
    matrix: Matrix
    is_drawn: bool


class _Reader:
    """Reads letters; what the library fills in is made once for all of them."""

    def __init__(self, words: pypdfium2.PdfTextPage, frame: Frame) -> None:
        self._words = words.raw
        self._frame = frame
        self._sides = tuple(ctypes.c_double() for _ in range(4))
        self._refs = tuple(map(ctypes.byref, self._sides))
        self._settings: dict[int, _Setting] = {}

    def find_origin(self, at: int) -> tuple[float, float]:
        """Return where a letter's pen begins, on the page itself."""
        pdfium.FPDFText_GetCharOrigin(self._words, at, *self._refs[:2])
        return (self._sides[0].value, self._sides[1].value)

    def read(self, at: int, text: str, origin: tuple[float, float]) -> Letter:
        """Return a letter with all that the page tells of it."""
        x, y = self._frame.move(*origin)
        part = pdfium.FPDFText_GetTextObject(self._words, at)
        address = find_address(part)
        if address not in self._settings:
            self._settings[address] = self._read_setting(at, part)
        common = self._settings[address]
        box = self._frame.place(self._find_box(at))
        return Letter(at, text, common.face, common.matrix, x, y, box, common.is_drawn)

    def _find_box(self, at: int) -> Rectangle:
        pdfium.FPDFText_GetCharBox(self._words, at, *self._refs)
        left, right, bottom, top = (side.value for side in self._sides)
        return Rectangle(left, bottom, right, top)

    def _read_setting(self, at: int, part: Any) -> _Setting:
        size = pdfium.FPDFText_GetFontSize(self._words, at)
        m = pdfium.FS_MATRIX()
        pdfium.FPDFText_GetMatrix(self._words, at, ctypes.byref(m))
        matrix = self._frame.turn((m.a * size, m.b * size, m.c * size, m.d * size))
        return _Setting(self._find_face(at), matrix, self._is_drawn(at, part))

    def _find_face(self, at: int) -> str:
        name = ctypes.create_string_buffer(_LONGEST_NAME)
        flags = ctypes.c_int()
        length = pdfium.FPDFText_GetFontInfo(
            self._words, at, name, _LONGEST_NAME, ctypes.byref(flags)
        )
        known = name.value.decode("utf-8", "replace") if length <= _LONGEST_NAME else ""
        return known.rpartition("+")[2]

    def _is_drawn(self, at: int, part: Any) -> bool:
        if not part or pdfium.FPDFTextObj_GetTextRenderMode(part) in _UNDRAWN:
            return False
        shade = tuple(ctypes.c_uint() for _ in range(4))
        pdfium.FPDFText_GetFillColor(self._words, at, *map(ctypes.byref, shade))
        return shade[3].value > 0
