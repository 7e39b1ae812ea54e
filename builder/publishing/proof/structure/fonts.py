"""The fonts of a PDF: whether each lies in the file, and which letters its codes stand for."""

import re
import struct
from collections.abc import Mapping
from dataclasses import dataclass

import pikepdf

from builder.publishing.proof.structure.objects import list_items, read_dictionary, read_name

_FONT_FILES = ("/FontFile", "/FontFile2", "/FontFile3")
_SECTION = re.compile(rb"begin(bfchar|bfrange)(.*?)endbf", re.DOTALL)
_PAIR = re.compile(rb"<([0-9A-Fa-f\s]*)>\s*<([0-9A-Fa-f\s]*)>")
_RANGE = re.compile(
    rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(?:<([0-9A-Fa-f]*)>|\[([^\]]*)\])", re.DOTALL
)
_HEX = re.compile(rb"<([0-9A-Fa-f\s]*)>")
_MOST_CODES = 1 << 16


@dataclass(frozen=True, slots=True)
class FontReading:
    """One font of a PDF."""

    name: str
    is_embedded: bool
    bytes_per_code: int
    letters: Mapping[int, str]
    """By code; empty where the font doesn't say."""

    def read_codes(self, text: bytes) -> tuple[int, ...]:
        """Return the codes of a string that is shown in this font."""
        if self.bytes_per_code == 1:
            return tuple(text)
        count = len(text) // 2
        return struct.unpack(f">{count}H", text[: 2 * count])


NO_FONT = FontReading("none", is_embedded=False, bytes_per_code=1, letters={})


def read_font(font: pikepdf.Object) -> FontReading:
    """Read a font of a page's resources."""
    is_composite = read_name(font, "/Subtype") == "Type0"
    inner = font
    if is_composite:
        parts = list_items(font.get("/DescendantFonts"))
        inner = parts[0] if parts and isinstance(parts[0], pikepdf.Dictionary) else font
    descriptor = read_dictionary(inner, "/FontDescriptor")
    has_file = any(name in descriptor for name in _FONT_FILES)
    return FontReading(
        read_name(font, "/BaseFont"),
        is_embedded=has_file or read_name(font, "/Subtype") == "Type3",
        bytes_per_code=2 if is_composite else 1,
        letters=_read_letters(font.get("/ToUnicode")),
    )


def _read_letters(table: object) -> dict[int, str]:
    """Read a map from codes to letters (ISO 32000-1, 9.10.3)."""
    if not isinstance(table, pikepdf.Stream):
        return {}
    letters: dict[int, str] = {}
    for kind, lines in _SECTION.findall(table.read_bytes()):
        if kind == b"bfchar":
            letters |= {int(code, 16): _decode(text) for code, text in _PAIR.findall(lines) if code}
        else:
            for first, last, text, several in _RANGE.findall(lines):
                letters |= _read_range(int(first, 16), int(last, 16), text, several)
    return letters


def _read_range(first: int, last: int, text: bytes, several: bytes) -> dict[int, str]:
    codes = range(first, min(last + 1, first + _MOST_CODES))
    if several:
        return dict(zip(codes, map(_decode, _HEX.findall(several)), strict=False))
    start = _decode(text)
    if not start:
        return {}
    return {code: start[:-1] + _step(start[-1], code - first) for code in codes}


def _step(letter: str, steps: int) -> str:
    number = ord(letter) + steps
    return chr(number) if number <= 0x10FFFF else "\ufffd"


def _decode(digits: bytes) -> str:
    try:
        return bytes.fromhex(digits.decode("ascii")).decode("utf-16-be", "replace")
    except ValueError:
        return ""
