"""Spreadsheets: the only sheet of an XLSX file, or the one named like the file, as a table."""

import warnings
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager
from datetime import date, datetime, time
from decimal import Decimal
from functools import partial
from importlib.util import find_spec
from io import BytesIO
from itertools import islice
from typing import Literal, Protocol
from zipfile import BadZipFile, ZipFile, ZipInfo
from zlib import error as deflate_error

from builder import rules
from builder.errors import InvalidValueError
from builder.findings import Finding, Place
from builder.input_limits import SHEET_BYTES, SHEET_PARTS, SHEET_TAGS
from builder.records.table import (
    LARGEST_ROW_CHARACTERS,
    MOST_COLUMNS,
    MOST_ROWS,
    Row,
    Table,
    free_formula,
    is_blank,
    sort_rows,
)
from builder.rules.excess import word_excess

EXTRA = 'pip install "tempoleaf[spreadsheets]"'
MOST_UNPACKED_BYTES = SHEET_BYTES.most
_LAST_ROW = 2 * MOST_ROWS
_MARKED_UP = (".xml", ".rels", ".vml")
_PIECE_BYTES = 1024 * 1024
_CURE = "save it again as XLSX, or as CSV in UTF-8"
_UNCOUNTED = "save the file in a spreadsheet program, or write the value itself"
BROKEN_FILE = (
    *(OSError, ValueError, KeyError, TypeError, AttributeError, IndexError, EOFError),
    *(BadZipFile, deflate_error, SyntaxError, OverflowError, RecursionError, NotImplementedError),
    *(RuntimeError, AssertionError),
)
"""What the library raises on files that no spreadsheet program wrote."""
_Cells = Sequence[object]


class _Sheet(Protocol):
    """What is asked of a sheet; the library may not be there to name its own."""

    title: str

    def iter_rows(self, *, values_only: Literal[True], max_col: int) -> Iterator[_Cells]:
        """Yield the values of each row."""


def read_spreadsheet(path: str, content: bytes, name: str) -> tuple[Table | None, list[Finding]]:
    """Read the bytes of an XLSX file; of several sheets with rows, the one that bears the name.

    A formula counts as the value that was worked out when the file was saved.
    """
    if find_spec("openpyxl") is None:
        fact = "spreadsheets can't be read without a further package"
        return None, [rules.TABLE_UNREADABLE.at(Place(path), fact, EXTRA)]
    try:
        fact = _find_trap(content)
        with _hush_library():
            sheet = [] if fact else list(_read_sheet(content, name))
    except InvalidValueError as error:
        return None, [rules.TABLE_UNREADABLE.at(Place(path), error.fact, error.cure)]
    except BROKEN_FILE:
        fact = "the file is no sound XLSX file"
    if fact:
        return None, [rules.TABLE_UNREADABLE.at(Place(path), fact, _CURE)]
    return _make_table(path, sheet)


def _hush_library() -> AbstractContextManager[object]:
    """Keep to itself what the library would tell of styles and the like that nobody asks for."""
    return warnings.catch_warnings(action="ignore")


def _find_trap(content: bytes) -> str:
    """Say what is wrong with a file that would unpack to far more than it seems, or nothing."""
    with ZipFile(BytesIO(content)) as packed:
        parts = packed.infolist()
        if len(parts) > SHEET_PARTS.most:
            return word_excess("the file", SHEET_PARTS, len(parts))
        size = sum(part.file_size for part in parts)
        if size > MOST_UNPACKED_BYTES:
            return f"the file unpacks to {size} bytes, more than {MOST_UNPACKED_BYTES}"
        tags = sum(_count_tags(packed, part) for part in parts)
    return word_excess("the file", SHEET_TAGS, tags) if tags > SHEET_TAGS.most else ""


def _count_tags(packed: ZipFile, part: ZipInfo) -> int:
    """Return how many tags a part has; to count them takes a hundredth of reading them."""
    if not part.filename.lower().endswith(_MARKED_UP):
        return 0
    with packed.open(part) as file:
        return sum(piece.count(b"<") for piece in iter(partial(file.read, _PIECE_BYTES), b""))


def _read_sheet(content: bytes, name: str) -> Iterator[tuple[int, _Cells, _Cells]]:
    """Yield the number of each row, its values, and what was typed in their place."""
    values = _open_rows(content, name, is_worked_out=True)
    typed = _open_rows(content, name, is_worked_out=False)
    rows = 0
    for number, (row, source) in enumerate(zip(values, typed, strict=True), start=1):
        if any(cell is not None for cell in source):
            _refuse_far(number, row)
            width = _measure(source)
            yield number, row[:width], source[:width]
            rows += 1
            if rows > MOST_ROWS + 1:
                return
        if number > _LAST_ROW:
            _refuse_far(number, row)


def _measure(typed: _Cells) -> int:
    """Return how many cells a row has without the empty ones that the library puts behind."""
    return max(number for number, cell in enumerate(typed, start=1) if cell is not None)


def _refuse_far(number: int, row: _Cells) -> None:
    if number > _LAST_ROW:
        fact = f"the sheet goes on beyond row {_LAST_ROW}"
        raise InvalidValueError(fact, "delete the rows below the last one, and save it")
    if len(row) > MOST_COLUMNS and row[MOST_COLUMNS] is not None:
        fact = f"the sheet has more than {MOST_COLUMNS} columns"
        raise InvalidValueError(fact, "delete the columns that nobody needs, and save it")


def name_sheet(content: bytes, name: str) -> str:
    """Return the title of the sheet that is read as the table of a name, in a sound file."""
    with _hush_library():
        return _open_sheet(content, name, is_worked_out=False).title


def _open_rows(content: bytes, name: str, *, is_worked_out: bool) -> Iterator[_Cells]:
    return _list_rows(_open_sheet(content, name, is_worked_out=is_worked_out))


def _open_sheet(content: bytes, name: str, *, is_worked_out: bool) -> _Sheet:
    from openpyxl import load_workbook  # noqa: PLC0415  # the extra may not be installed

    book = load_workbook(BytesIO(content), read_only=True, data_only=is_worked_out)
    sheets = book.worksheets
    for sheet in sheets:
        sheet.reset_dimensions()  # a file may lie about how many cells it has
    named = [sheet for sheet in sheets if sheet.title.strip().lower() == name]
    filled = named[:1] or [sheet for sheet in sheets if _says_something(_list_rows(sheet))]
    if len(filled) > 1:
        fact = f'{len(filled)} sheets of the file hold rows, and none is called "{name}"'
        raise InvalidValueError(fact, "give the one that counts that name, or keep one only")
    return (filled or sheets)[0]


def _list_rows(sheet: _Sheet) -> Iterator[_Cells]:
    return sheet.iter_rows(values_only=True, max_col=MOST_COLUMNS + 1)


def _says_something(rows: Iterator[_Cells]) -> bool:
    """Tell whether any cell is filled, as far as a sheet may go."""
    return any(cell is not None for row in islice(rows, _LAST_ROW) for cell in row)


def _make_table(
    path: str, sheet: Sequence[tuple[int, _Cells, _Cells]]
) -> tuple[Table | None, list[Finding]]:
    read = [(number, tuple(map(_write, cells)), typed) for number, cells, typed in sheet]
    if not read or is_blank(read[0][1]):
        fact, cure = "the sheet is empty", "give it a first row that names the columns"
        return None, [rules.TABLE_UNREADABLE.at(Place(path), fact, cure)]
    if len(read) > MOST_ROWS + 1:
        fact = f"the sheet has more than {MOST_ROWS} rows"
        return None, [rules.TABLE_UNREADABLE.at(Place(path), fact, "split it by years")]
    (line, header, _), *others = read
    width = max(number for number, cell in enumerate(header, start=1) if cell.strip())
    findings = []
    rows: list[Row] = []
    unread = []
    for number, cells, typed in others:
        fault = _find_fault(path, number, cells, typed)
        if fault:
            findings.append(fault)
            unread.append(Row(number, _narrow(cells, width)))
        elif not is_blank(cells):
            rows.append(Row(number, _narrow(cells, width)))
    head = Row(line, tuple(cell.strip() for cell in header[:width]))
    table, faults = sort_rows(Table(path, head, tuple(rows), tuple(unread)))
    return table, findings + faults


def _find_fault(path: str, line: int, cells: Sequence[str], typed: _Cells) -> Finding | None:
    for number, (cell, source) in enumerate(zip(cells, typed, strict=True), start=1):
        is_formula = isinstance(source, str) and source.startswith("=")
        if is_formula and cell == "":
            fact = f'the formula "{str(source)[:40]}" has no worked-out value'
            return rules.ROW_UNREADABLE.at(Place(path, line, number), fact, _UNCOUNTED)
        if is_formula and cell.startswith("#"):
            fact = f'the formula "{str(source)[:40]}" comes to "{cell}"'
            return rules.ROW_UNREADABLE.at(Place(path, line, number), fact, "mend the formula")
    if sum(map(len, cells)) > LARGEST_ROW_CHARACTERS:
        fact = f"the row is longer than {LARGEST_ROW_CHARACTERS} characters"
        return rules.ROW_UNREADABLE.at(Place(path, line), fact, "shorten it")
    return None


def _narrow(cells: tuple[str, ...], width: int) -> tuple[str, ...]:
    """Give a row as many cells as the header has, and more only where they aren't blank."""
    return cells if not is_blank(cells[width:]) else (*cells, *[""] * width)[:width]


def _write(value: object) -> str:
    """Write a cell's value as a person would in CSV."""
    match value:
        case None:
            return ""
        case datetime() if value.time() == time():
            return value.date().isoformat()
        case date():
            return value.isoformat()
        case float():
            return format(Decimal(repr(value)), "f").removesuffix(".0")
        case _:
            return free_formula(str(value))
