"""The journal: rows are added to a file and nothing that stands there is touched.

What stood in the file stays to the letter and comes first; only the header may gain the column
of marks. A program that is killed leaves the file as it was or with all of its rows.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from builder.errors import BuilderError
from builder.findings import Finding, Severity
from builder.records.columns import ENTRY, Column, find_columns, list_names
from builder.records.csv_text import Layout, read_csv, write_cells, write_csv_rows
from builder.records.table import Table, is_blank
from builder.records.table_file import LARGEST_FILE_BYTES, SPREADSHEET, read_content
from builder.work.whole import write_whole_bytes

LOCK = ".records.lock"
WAIT_SECONDS = 30.0
_BOM = "\ufeff".encode()

Cells = Mapping[str, str]
"""One row by column."""


@contextmanager
def hold_folder(folder: Path, wait_seconds: float = WAIT_SECONDS) -> Iterator[None]:
    """Keep other writers out of a program folder; BuilderError where one doesn't finish."""
    lock = FileLock(folder / LOCK, timeout=wait_seconds)
    try:
        lock.acquire()
    except Timeout as error:
        raise BuilderError(
            f'another program is writing in "{folder}"', "let it finish, and run this again"
        ) from error
    try:
        yield
    finally:
        lock.release()


def append_rows(path: Path, columns: Sequence[Column], rows: Sequence[Cells]) -> None:
    """Add rows to a CSV file of a program folder, one writer at a time."""
    with hold_folder(path.parent):
        add_rows(path, columns, rows)


def add_rows(path: Path, columns: Sequence[Column], rows: Sequence[Cells]) -> None:
    """Add rows while the folder is held; BuilderError where that can't be done safely."""
    if not rows:
        return
    refuse_spreadsheet(path)
    target = path.resolve()
    old = _read_old(target)
    new = extend(path.name, old, columns, rows)
    if len(new) > LARGEST_FILE_BYTES:
        raise BuilderError(
            f'"{path}" would grow beyond {LARGEST_FILE_BYTES} bytes',
            "move the rows of past years to another folder",
        )
    write_whole_bytes(target, new)


def refuse_spreadsheet(path: Path) -> None:
    """Raise BuilderError where rows are kept in a spreadsheet, which can't only be added to."""
    spreadsheet = path.with_suffix(SPREADSHEET)
    if spreadsheet.exists():
        raise BuilderError(
            f'rows can\'t be added to the spreadsheet "{spreadsheet.name}"',
            f'save it as "{path.name}" in UTF-8, and move the spreadsheet away',
        )


def extend(name: str, old: bytes, columns: Sequence[Column], rows: Sequence[Cells]) -> bytes:
    """Return a file's bytes with rows added in its own separator, line ends and columns."""
    if not old.removeprefix(_BOM).strip():
        names = list_names(columns)
        start = old + (write_cells(names, ",") + "\n").encode()
        return start + write_csv_rows(_lay(name, rows, names), Layout()).encode()
    table, layout, findings = read_csv(name, old)
    if table is None:
        raise stop_for(findings)
    found, findings = find_columns(table, columns)
    if found is None:
        raise stop_for(findings)
    _refuse_open_quotes(name, table)
    places = dict(found)
    if ENTRY not in places and any(row.get(ENTRY) for row in rows):
        old = _add_entry(name, old, table, layout)
        places[ENTRY] = len(table.header.cells)
    width = max(len(table.header.cells), *(place + 1 for place in places.values()))
    ordered = [""] * width
    for column, place in places.items():
        ordered[place] = column
    laid = _lay(name, rows, ordered)
    ended = old if old.endswith((b"\n", b"\r")) else old + layout.line_end.encode()
    new = ended + write_csv_rows(laid, layout).encode()
    _prove(name, new, table, laid)
    return new


def _lay(name: str, rows: Sequence[Cells], columns: Sequence[str]) -> list[tuple[str, ...]]:
    """Put the cells of rows into the order of a file; each that says something needs a place."""
    for row in rows:
        homeless = next((each for each, cell in row.items() if cell and each not in columns), None)
        if homeless:
            cure = f'add ",{homeless}" to the end of its first row, with its own separator'
            raise BuilderError(f'"{name}" has no column "{homeless}"', cure)
    return [tuple(row.get(column, "") if column else "" for column in columns) for row in rows]


def _add_entry(name: str, old: bytes, table: Table, layout: Layout) -> bytes:
    """Add the column of marks to the header line, which must leave every old row its sense."""
    width = len(table.header.cells)
    for row in (*table.rows, *table.unread):
        if not is_blank(row.cells[width:]):
            raise BuilderError(
                f'row {row.line} of "{name}" has more cells than its header, so that a column of '
                "marks can't be added",
                "take the last cells out, or give them a column",
            )
    text = old.decode()
    head, rest = text[: layout.header_end], text[layout.header_end :]
    return f"{head}{layout.separator}{ENTRY}{rest}".encode()


def _refuse_open_quotes(name: str, table: Table) -> None:
    """Refuse a file in which other programs would take new rows for part of an old cell."""
    for row in table.unread:
        if len(row.cells) == 1 and '"' in row.cells[0]:
            raise BuilderError(
                f'the quotes in row {row.line} of "{name}" don\'t come in pairs',
                'write "" for a quote inside a cell, and run this again',
            )


def _prove(name: str, new: bytes, before: Table, laid: Sequence[tuple[str, ...]]) -> None:
    """Read the new bytes back: the old rows and the new ones must say what they should."""
    after, _, _ = read_csv(name, new)
    if after is None or after.rows[: len(before.rows)] != before.rows:
        raise _unsafe(name)
    added = [_trim(row.cells) for row in after.rows[len(before.rows) :]]
    if added != [_trim(cells) for cells in laid]:
        raise _unsafe(name)


def _trim(cells: tuple[str, ...]) -> tuple[str, ...]:
    width = len(cells)
    while width and not cells[width - 1]:
        width -= 1
    return cells[:width]


def _read_old(path: Path) -> bytes:
    if not path.exists():
        return b""
    content, findings = read_content(path, path.name)
    if content is None:
        raise stop_for(findings)
    return content


def _unsafe(name: str) -> BuilderError:
    return BuilderError(
        f'new rows in "{name}" would not read back as they are',
        "save it again as CSV in UTF-8 from the program that made it",
    )


def stop_for(findings: Iterable[Finding]) -> BuilderError:
    """Make the first finding that keeps a file out the end of the run."""
    first = next(each for each in findings if each.rule.severity is Severity.ERROR)
    return BuilderError(f"{first.place}: {first.fact}", first.cure)
