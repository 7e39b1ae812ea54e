"""Takes rows out of an XLSX file, and leaves every other part of it to the byte.

The library that reads spreadsheets would lose worked-out values, pictures and charts in saving,
so that the rows are cut out of the file's own XML (ISO/IEC 29500-1, 18.3.1). A row stays as an
empty one, so that no formula, format or merged cell elsewhere has to move.
"""

import re
from collections.abc import Collection, Mapping
from html import unescape
from io import BytesIO
from posixpath import join, normpath
from zipfile import ZipFile

from builder.records.spreadsheet import BROKEN_FILE, name_sheet

_ROW = re.compile(rb"<(\w+:)?row\b([^>]*?)(?:/>|>(.*?)</(?:\w+:)?row\s*>)", re.DOTALL)
_NUMBER = re.compile(rb'\br="([0-9]+)"')
_FORMULA = re.compile(rb"<(?:\w+:)?f[\s/>]")
_SHARED_CELL = re.compile(
    rb'<(?:\w+:)?c\b[^>]*\bt="s"[^>]*>\s*<(?:\w+:)?v>\s*([0-9]+)\s*</', re.DOTALL
)
_STRING = re.compile(rb"<(\w+:)?si\b[^>]*?(?:/>|>.*?</(?:\w+:)?si\s*>)", re.DOTALL)
_SHEET = re.compile(r"<(?:\w+:)?sheet\s[^>]*>")
_RELATION = re.compile(r"<(?:\w+:)?Relationship\s[^>]*>")
_ATTRIBUTE = re.compile(r"""([\w:]+)\s*=\s*["']([^"']*)["']""")
_BOOK = "xl/workbook.xml"
_LINKS = "xl/_rels/workbook.xml.rels"
_STRINGS = "xl/sharedStrings.xml"
_SHEETS = "xl/worksheets/"


def cut_sheet_rows(content: bytes, name: str, numbers: Collection[int]) -> bytes | None:
    """Empty some rows of the sheet that bears a table, and forget the words only they had.

    None where that can't be done safely: a row with a formula, or a file built in another way.
    What names somebody in remarks, charts or other sheets is left to those who read it again.
    """
    try:
        return _cut(content, name_sheet(content, name), numbers)
    except BROKEN_FILE:  # in parts that nobody reads for a table
        return None


def _cut(content: bytes, title: str, numbers: Collection[int]) -> bytes | None:
    with ZipFile(BytesIO(content)) as book:
        parts = {each.filename: book.read(each) for each in book.infolist()}
        sheet = _find_part(parts, title)
        if sheet is None:
            return None
        new = _empty_rows(parts[sheet], numbers)
        if new is None:
            return None
        before = _count_shared(parts)
        parts[sheet] = new
        if _STRINGS in parts:
            parts[_STRINGS] = _empty_strings(parts[_STRINGS], before - _count_shared(parts))
        return _pack(book, parts)


def _find_part(parts: Mapping[str, bytes], title: str) -> str | None:
    """Return the part that holds the sheet of a title, by the book's own list."""
    if _BOOK not in parts or _LINKS not in parts:
        return None
    sheets = [dict(_ATTRIBUTE.findall(tag)) for tag in _SHEET.findall(parts[_BOOK].decode())]
    links = [dict(_ATTRIBUTE.findall(tag)) for tag in _RELATION.findall(parts[_LINKS].decode())]
    wanted = [each.get("r:id") for each in sheets if unescape(each.get("name", "")) == title]
    targets = [each.get("Target", "") for each in links if [each.get("Id")] == wanted]
    found = [normpath(join("xl", target)).lstrip("/") for target in targets]
    return found[0] if len(found) == 1 and found[0] in parts else None


def _empty_rows(sheet: bytes, numbers: Collection[int]) -> bytes | None:
    wanted = set(numbers)
    cuts = []
    for row in _ROW.finditer(sheet):
        number = _NUMBER.search(row[2])
        if number is None or (_FORMULA.search(row[3] or b"") and int(number[1]) in wanted):
            return None
        if int(number[1]) in wanted:
            wanted.remove(int(number[1]))
            cuts.append((row, b"<%srow%s/>" % (row[1] or b"", row[2])))
    for row, empty in reversed(cuts):
        sheet = sheet[: row.start()] + empty + sheet[row.end() :]
    return None if wanted else sheet


def _count_shared(parts: Mapping[str, bytes]) -> frozenset[int]:
    """Return the numbers of the shared texts that stand in any sheet."""
    return frozenset(
        int(number)
        for name, part in parts.items()
        if name.startswith(_SHEETS)
        for number in _SHARED_CELL.findall(part)
    )


def _empty_strings(strings: bytes, gone: Collection[int]) -> bytes:
    """Empty the texts that no cell has any more; the others keep their numbers."""
    numbers = iter(range(len(strings)))

    def write(found: re.Match[bytes]) -> bytes:
        lead = found[1] or b""
        return b"<%ssi><%st/></%ssi>" % (lead, lead, lead) if next(numbers) in gone else found[0]

    return _STRING.sub(write, strings)


def _pack(book: ZipFile, parts: Mapping[str, bytes]) -> bytes:
    """Write the parts in their order, with the dates and ways of packing that they had."""
    target = BytesIO()
    with ZipFile(target, "w") as new:
        for entry in book.infolist():
            new.writestr(entry, parts[entry.filename])
    return target.getvalue()
