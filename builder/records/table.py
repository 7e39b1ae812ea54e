"""Tables: a header and rows with their numbers, whatever file they came from."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import BROKEN_ROWS, ROW_CHARACTERS, TABLE_COLUMNS, TABLE_ROWS
from builder.reading.hidden_signs import CURE, find_hidden_sign

SEPARATORS = ",;\t|"
"""Signs that stand between the cells of a CSV file."""
MOST_ROWS = TABLE_ROWS.most
MOST_COLUMNS = TABLE_COLUMNS.most
LARGEST_ROW_CHARACTERS = ROW_CHARACTERS.most
MOST_BROKEN_ROWS = BROKEN_ROWS.most

_FORMULA = re.compile(r"'*[=+\-@\t\r\n\uff0b\uff0d\uff1d\uff20]")
"""What a spreadsheet takes for a formula, after any apostrophes; the wide signs count too."""
_GUARDED = re.compile(r"'+[=+\-@\t\r\n\uff0b\uff0d\uff1d\uff20]")
_NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number in the file, from 1, and what its cells say."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """What a file of rows holds, blank rows left out."""

    path: str
    header: Row
    rows: tuple[Row, ...]
    unread: tuple[Row, ...] = ()
    """Rows that make no sense as such, with their text as one cell or with the cells as found."""

    def at(self, line: int, column: int = 1) -> Place:
        """Return the place of a cell."""
        return Place(self.path, line, column)


def guard_formula(cell: str) -> str:
    """Put an apostrophe before what a spreadsheet would run; numbers stay numbers."""
    if _FORMULA.match(cell) and not _NUMBER.fullmatch(cell):
        return f"'{cell}"
    return cell


def free_formula(cell: str) -> str:
    """Take away the apostrophe that guard_formula put."""
    return cell[1:] if _GUARDED.match(cell) else cell


def is_blank(cells: Iterable[str]) -> bool:
    """Tell whether a row says nothing."""
    return not any(cell.strip() for cell in cells)


def sort_rows(table: Table) -> tuple[Table, list[Finding]]:
    """Set apart the rows that can't be taken: hidden signs, or more cells than the header."""
    good: list[Row] = []
    unread = list(table.unread)
    findings = []
    for row in table.rows:
        fault = next(_find_faults(table, row), None)
        (unread if fault else good).append(row)
        findings += [fault] if fault else []
    unread.sort(key=lambda row: row.line)
    return Table(table.path, table.header, tuple(good), tuple(unread)), findings


def _find_faults(table: Table, row: Row) -> Iterator[Finding]:
    for number, cell in enumerate(row.cells, start=1):
        hidden = find_hidden_sign(cell)
        if hidden:
            yield rules.ROW_UNREADABLE.at(table.at(row.line, number), hidden[1], CURE)
    width = len(table.header.cells)
    if not is_blank(row.cells[width:]):
        yield rules.ROW_UNREADABLE.at(
            table.at(row.line, width + 1),
            f"the row has {len(row.cells)} cells, its header {width}",
            'put "…" round a cell that holds the sign between cells',
        )
