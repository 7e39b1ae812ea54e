"""CSV: text to a table and back, as spreadsheet programs and people write it."""

import csv
import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import TABLE_COLUMNS
from builder.records.table import (
    LARGEST_ROW_CHARACTERS,
    MOST_BROKEN_ROWS,
    MOST_COLUMNS,
    MOST_ROWS,
    SEPARATORS,
    Row,
    Table,
    free_formula,
    guard_formula,
    is_blank,
    sort_rows,
)
from builder.rules.excess import word_excess

_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
_LINE_END = re.compile(r"\r\n|\r|\n")
_TOLD_SEPARATOR = re.compile(rf"sep=([{SEPARATORS}])\s*", re.IGNORECASE)
"""A first line by which a spreadsheet program tells itself what stands between cells."""
_QUOTED = re.compile(r'"[^"]*"')
_BOM = "\ufeff"
_NO_UTF8 = "save it as CSV in UTF-8"


@dataclass(frozen=True, slots=True)
class Layout:
    """How a CSV file is written, so that new rows look like the old ones."""

    separator: str = ","
    line_end: str = "\n"
    header_end: int = 0
    """The character behind the header's last cell, a byte order mark counted; 0 without one."""


@dataclass(frozen=True, slots=True)
class _Record:
    """One row as it was parsed; a fact in place of cells where it can't be."""

    line: int
    text: str
    end: int
    """The index of the line after it."""
    cells: tuple[str, ...] = ()
    fact: str = ""


def read_csv(path: str, content: bytes) -> tuple[Table | None, Layout, list[Finding]]:
    """Read the bytes of a CSV file; rows that make no sense are findings and the rest is kept."""
    text, refusal = _decode(path, content)
    if text is None:
        return None, Layout(), refusal
    lines = _LINE.findall(text.removeprefix(_BOM))
    start, separator = _find_separator(lines)
    found = re.search(_LINE_END, text)
    layout = Layout(separator, found[0] if found else "\n")
    records = list(_read_records(lines, start, separator))
    if not records or records[0].fact:
        return None, layout, [_tell_no_header(path, records)]
    refusal = _refuse_excess(path, records)
    if refusal:
        return None, layout, refusal
    header, *others = records
    table = Table(
        path,
        Row(header.line, tuple(cell.strip() for cell in header.cells)),
        tuple(Row(each.line, each.cells) for each in others if not each.fact),
        tuple(Row(each.line, (each.text,)) for each in others if each.fact),
    )
    broken = [_tell_broken(path, each) for each in others if each.fact]
    table, findings = sort_rows(table)
    before = len(text) - len(text.removeprefix(_BOM)) + sum(map(len, lines[: header.end]))
    ending = _LINE_END.search(header.text[-2:])
    header_end = before - (len(ending[0]) if ending else 0)
    return table, Layout(separator, layout.line_end, header_end), broken + findings


def write_csv_rows(rows: Iterable[Sequence[str]], layout: Layout) -> str:
    """Write rows as text that reads back equal and that no spreadsheet runs."""
    return "".join(write_cells(row, layout.separator) + layout.line_end for row in rows)


def write_cells(cells: Iterable[str], separator: str) -> str:
    """Write cells as one row without its line end."""
    return separator.join(_quote(guard_formula(cell)) for cell in cells)


def cut_rows(content: bytes, numbers: Collection[int]) -> bytes:
    """Return the bytes of a CSV file without some rows; all others stay to the letter."""
    text = content.decode("utf-8")
    lines = _LINE.findall(text.removeprefix(_BOM))
    start, separator = _find_separator(lines)
    gone = {
        at
        for each in _read_records(lines, start, separator)
        if each.line in numbers
        for at in range(each.line - 1, each.end)
    }
    kept = "".join(line for at, line in enumerate(lines) if at not in gone)
    return (text[: len(text) - len(text.removeprefix(_BOM))] + kept).encode()


def _quote(cell: str) -> str:
    plain = cell == cell.strip() and not any(sign in cell for sign in (*SEPARATORS, *'"\r\n'))
    return cell if plain else '"' + cell.replace('"', '""') + '"'


def _decode(path: str, content: bytes) -> tuple[str | None, list[Finding]]:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        fact = "the file is UTF-16 text"
        return None, [rules.TABLE_UNREADABLE.at(Place(path), fact, _NO_UTF8)]
    try:
        return content.decode("utf-8"), []
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        fact = "the file is not UTF-8 text"
        return None, [rules.TABLE_UNREADABLE.at(Place(path, line), fact, _NO_UTF8)]


def _find_separator(lines: Sequence[str]) -> tuple[int, str]:
    """Return the line to begin with and what stands between cells there."""
    told = _TOLD_SEPARATOR.fullmatch(lines[0]) if lines else None
    if told:
        return 1, told[1]
    header = next((line for line in lines if line.strip()), "")
    bare = _QUOTED.sub("", header)
    return 0, max(SEPARATORS, key=bare.count)


def _read_records(lines: Sequence[str], start: int, separator: str) -> Iterator[_Record]:
    """Yield the rows that say something, up to one too many or one too many that are broken.

    After a broken one it goes on with the next line.
    """
    at, rows, broken = start, 0, 0
    while at < len(lines) and rows <= MOST_ROWS + 1 and broken <= MOST_BROKEN_ROWS:
        record = _read_record(lines, at, separator)
        if record.fact or not is_blank(record.cells):
            rows, broken = rows + 1, broken + bool(record.fact)
            yield record
        at = record.end


def _read_record(lines: Sequence[str], at: int, separator: str) -> _Record:
    first = lines[at]
    if len(first) > LARGEST_ROW_CHARACTERS:
        return _Record(at + 1, first, at + 1, fact=_TOO_LONG)
    if '"' not in first:
        cells = first.rstrip("\r\n").split(separator)
        return _Record(at + 1, first, at + 1, tuple(map(free_formula, cells)))
    taken: list[str] = []
    try:
        cells = next(csv.reader(_feed(lines, at, taken), delimiter=separator, strict=True))
    except csv.Error:
        is_long = sum(map(len, taken)) > LARGEST_ROW_CHARACTERS
        return _Record(at + 1, first, at + 1, fact=_TOO_LONG if is_long else _BROKEN)
    end = at + len(taken)
    return _Record(at + 1, "".join(taken), end, tuple(map(free_formula, cells)))


_TOO_LONG = f"the row is longer than {LARGEST_ROW_CHARACTERS} characters"
_BROKEN = "the quotes of this row don't come in pairs"


def _feed(lines: Sequence[str], at: int, taken: list[str]) -> Iterator[str]:
    """Give the reader lines while a quoted cell goes on, and note which; stop where it is long."""
    size = 0
    for number in range(at, len(lines)):
        size += len(lines[number])
        taken.append(lines[number])
        if size > LARGEST_ROW_CHARACTERS:
            return
        yield lines[number]


def _tell_no_header(path: str, records: Sequence[_Record]) -> Finding:
    place = Place(path, records[0].line if records else 1)
    fact = records[0].fact if records else "the file is empty"
    return rules.TABLE_UNREADABLE.at(place, fact, "give it a first row that names the columns")


def _refuse_excess(path: str, records: Sequence[_Record]) -> list[Finding]:
    broken = [each for each in records if each.fact]
    columns = len(records[0].cells)
    if columns > MOST_COLUMNS:
        place = Place(path, records[0].line)
        fact = word_excess("the file", TABLE_COLUMNS, columns)
        return [rules.TABLE_UNREADABLE.at(place, fact, "delete the columns that nobody needs")]
    if len(records) > MOST_ROWS + 1:
        fact = f"the file has more than {MOST_ROWS} rows"
        return [rules.TABLE_UNREADABLE.at(Place(path), fact, "split it by years")]
    if len(broken) > MOST_BROKEN_ROWS:
        fact = f"more than {MOST_BROKEN_ROWS} rows are broken, and this is the first of them"
        cure = "save it again from the program that made it"
        return [rules.TABLE_UNREADABLE.at(Place(path, broken[0].line), fact, cure)]
    return []


def _tell_broken(path: str, record: _Record) -> Finding:
    if record.fact == _TOO_LONG:
        cure = "shorten it, or close its quotes"
    else:
        cure = 'write "" for a quote inside a cell, and one " at each end of the cell'
    return rules.ROW_UNREADABLE.at(Place(path, record.line), record.fact, cure)
