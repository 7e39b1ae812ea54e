"""An export: rows of a class screen, or of another file of records, ready to be recorded."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from builder.findings import Finding
from builder.records.attendance import Attendance
from builder.records.columns import (
    ATTENDANCE,
    ENTRY,
    EXPORT,
    KEPT_ASIDE,
    RESULTS,
    Column,
    find_columns,
    list_names,
    simplify,
)
from builder.records.event_rows import read_attendance, read_result
from builder.records.known import Known
from builder.records.result import Result
from builder.records.row_check import RowCheck, inspect_rows
from builder.records.table import Row, Table
from builder.records.table_file import read_table


class Kind(StrEnum):
    """What a row tells of."""

    ATTENDANCE = "attendance"
    RESULT = "result"

    @property
    def columns(self) -> tuple[Column, ...]:
        """Return the columns of its file."""
        return ATTENDANCE if self is Kind.ATTENDANCE else RESULTS

    @property
    def file_name(self) -> str:
        """Return the file that its rows are added to, without ending."""
        return "attendance" if self is Kind.ATTENDANCE else "results"


@dataclass(frozen=True, slots=True)
class ExportRow:
    """One sound row of an export."""

    check: RowCheck
    kind: Kind
    value: Attendance | Result


@dataclass(frozen=True, slots=True)
class Export:
    """What an export holds."""

    header: tuple[str, ...]
    rows: tuple[ExportRow, ...]
    by_line: Mapping[int, Row]
    """Every row as it was found, by its number."""
    findings: tuple[Finding, ...]


def read_export(file: Path, known: Known) -> Export:
    """Read an export; a row with a fault is only among its findings."""
    table, findings = read_table(file, file.as_posix())
    if table is None:
        return Export((), (), {}, tuple(findings))
    kind, wanted = _tell_kind(table)
    columns, faults = find_columns(table, wanted)
    by_line = {row.line: row for row in (*table.rows, *table.unread)}
    findings += faults
    if columns is None:
        return Export(table.header.cells, (), by_line, tuple(findings))
    rows: list[ExportRow] = []
    for check in inspect_rows(table, columns):
        rows += _read_row(check, kind, known)
        findings += check.findings
    return Export(table.header.cells, tuple(rows), by_line, tuple(findings))


def make_key(kind: Kind, check: RowCheck, known: Known) -> tuple[str, ...]:
    """Return what a row says, however it is written; rows of one key are equal.

    The mark isn't part of it, and the unit isn't: it is the measure's or the row is wrong.
    """
    return tuple(
        _simplify_cell(name, check.text(name), known)
        for name in list_names(kind.columns, with_entry=False)
        if name != "unit"
    )


def _simplify_cell(column: str, text: str, known: Known) -> str:
    if column == "lesson":
        return known.lesson_ids.get(text, text)
    if column == "note":
        return text
    if column in ("value", "breaths done", "rest seconds"):
        return _simplify_number(text)
    return text.casefold()


def _simplify_number(text: str) -> str:
    """Return a number in one way of writing, and other text in small letters."""
    plain = text.replace("\u2212", "-").replace(",", ".").removeprefix("+")
    try:
        return f"{float(plain) + 0.0:.12g}"
    except ValueError:
        return text.casefold()


def _tell_kind(table: Table) -> tuple[Kind | None, tuple[Column, ...]]:
    """Tell by the columns what a file is; no kind means that each row says its own."""
    names = {simplify(header) for header in table.header.cells}
    if "kind" not in names and "outcome" in names and "measure" not in names:
        return Kind.ATTENDANCE, (*KEPT_ASIDE, *ATTENDANCE)
    if "kind" not in names and "measure" in names and "outcome" not in names:
        return Kind.RESULT, (*KEPT_ASIDE, *RESULTS)
    return None, EXPORT


def _read_row(check: RowCheck, kind: Kind | None, known: Known) -> Iterator[ExportRow]:
    if kind is None:
        chosen = check.choose("kind", list(Kind))
        if chosen is None:
            return
        kind = Kind(chosen)
        _refuse_foreign(check, kind)
    read = read_attendance if kind is Kind.ATTENDANCE else read_result
    value = read(check, known)
    if value:
        yield ExportRow(check, kind, value)


def _refuse_foreign(check: RowCheck, kind: Kind) -> None:
    """Note cells that a row of its kind has no room for, so that none gets lost."""
    own = {"kind", ENTRY, *list_names(KEPT_ASIDE), *list_names(kind.columns)}
    for name in list_names(EXPORT):
        if name not in own and check.text(name):
            fact = f'a row of kind "{kind}" has no "{name}"'
            check.refuse(name, fact, "empty the cell, or write it in a row of its own")
