"""Letters in the tool's own type, as they would look if nothing hid them."""

import ctypes
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from builder.publishing.proof.safety.pdf_letters import Letter
from builder.resources import find_templates

FAMILY = "Source-Sans-3"
"""The family of all PDFs, as their fonts' names begin."""
_FILES = {
    FAMILY: "Regular",
    f"{FAMILY}-Semi-Bold": "Semibold",
    f"{FAMILY}-Bold": "Bold",
    f"{FAMILY}-Italic": "It",
}
"""Which file a font comes from, by its name in a PDF."""

_JOINED = "\ufb00\ufb01\ufb02\ufb03\ufb04"
"""Ligatures with a code of their own (Unicode, Alphabetic Presentation Forms)."""
_HINTS = (b"fpgm", b"prep", b"cvt ")
_COUNT_AT, _DIRECTORY_AT, _ENTRY_BYTES = 4, 12, 16


@dataclass(frozen=True, slots=True)
class _Face:
    handle: Any
    glyphs: Mapping[str, int]
    """The number of a glyph by the signs that it stands for."""
    content: Any
    """Kept, because the library reads the file where it lies."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """White paper of a size in points, on which letters are moved to the right and up."""

    width: float
    height: float
    across: float
    up: float


class OwnType:
    """Paints letters on a page of its own, from the font files that all PDFs are made with."""

    def __init__(self) -> None:
        self._document = pdfium.FPDF_CreateNewDocument()
        self._faces: dict[str, _Face] = {}

    def has(self, letter: Letter) -> bool:
        """Tell whether a letter's font is one of the tool's own and has that letter."""
        face = self._find_face(letter.face)
        return face is not None and letter.text in face.glyphs

    def paint(self, letters: Iterable[Letter], sheet: Sheet, show: Callable[[Any], None]) -> None:
        """Set letters in black on a sheet, and show it to somebody."""
        page = pdfium.FPDFPage_New(self._document, 0, sheet.width, sheet.height)
        try:
            for letter in letters:
                self._set(page, letter, sheet)
            show(page)
        finally:
            pdfium.FPDF_ClosePage(page)
            pdfium.FPDFPage_Delete(self._document, 0)

    def _set(self, page: object, letter: Letter, sheet: Sheet) -> None:
        face = self._find_face(letter.face)
        glyph = face.glyphs.get(letter.text) if face else None
        if face is None or glyph is None:
            return
        part = pdfium.FPDFPageObj_CreateTextObj(self._document, face.handle, 1.0)
        pdfium.FPDFText_SetCharcodes(part, (ctypes.c_uint32 * 1)(glyph), 1)
        place = pdfium.FS_MATRIX(*letter.matrix, letter.x + sheet.across, letter.y + sheet.up)
        pdfium.FPDFPageObj_SetMatrix(part, ctypes.byref(place))
        pdfium.FPDFPage_InsertObject(page, part)

    def _find_face(self, name: str) -> _Face | None:
        name = name.removesuffix(",")
        if name in _FILES and name not in self._faces:
            self._faces[name] = self._load(_FILES[name])
        return self._faces.get(name)

    def _load(self, file: str) -> _Face:
        path = find_templates() / "fonts" / f"SourceSans3-{file}.ttf"
        content = _drop_hints(path.read_bytes())
        kept = (ctypes.c_uint8 * len(content)).from_buffer_copy(content)
        handle = pdfium.FPDFText_LoadFont(
            self._document, kept, len(content), pdfium.FPDF_FONT_TRUETYPE, True
        )
        return _Face(handle, _list_glyphs(str(path)), kept)


@cache
def open_own_type() -> OwnType:
    """Return this process's own type: each font is loaded once, when it is first asked for."""
    return OwnType()


def _drop_hints(font: bytes) -> bytes:
    """Return a font without what fits its letters to dots, as the fonts in our PDFs are.

    Its tables are only given names that nobody looks for (OpenType 1.9, table directory).
    """
    count = int.from_bytes(font[_COUNT_AT : _COUNT_AT + 2], "big")
    end = _DIRECTORY_AT + _ENTRY_BYTES * count
    directory = font[_DIRECTORY_AT:end]
    for name in _HINTS:
        directory = directory.replace(name, name.upper())
    return font[:_DIRECTORY_AT] + directory + font[end:]


def _list_glyphs(path: str) -> Mapping[str, int]:
    """Return the glyphs of a font by what they say; "f_t" is the ligature of "ft"."""
    # Loaded here, because most runs read no finished PDF.
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # noqa: PLC0415

    with TTFont(path, lazy=True) as font:
        numbers = font.getReverseGlyphMap()
        single = {chr(sign): numbers[name] for sign, name in font.getBestCmap().items()}
        joined = (name.split("_") for name in numbers if "_" in name)
        ligatures = {
            "".join(parts): numbers["_".join(parts)]
            for parts in joined
            if all(len(part) == 1 for part in parts)
        }
        for sign in _JOINED:
            if sign in single:
                ligatures.setdefault(unicodedata.normalize("NFKC", sign), single[sign])
    return {**ligatures, **single}
