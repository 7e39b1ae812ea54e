"""One row under inspection: its cells become values, and what is wrong is noted."""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from builder import rules
from builder.course.names import offer, suggest
from builder.findings import Finding, Place, Rule, Severity
from builder.input_limits import HINTS
from builder.records.table import SEPARATORS, Row, Table

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NUMBER = re.compile(r"[+-]?[0-9]{1,9}(?:[.,][0-9]{1,9})?")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_MINUS = "\u2212"
_LEAST_SIGNS = 3
"""Fewer commas stand in many a remark (ours)."""
_FIRST_YEAR = 1990
"""No class of a studio that writes here was before it; a day in 1026 is a slip (ours)."""


@dataclass(slots=True)
class Hints:
    """How many more names of one file are held against every known one."""

    left: int = HINTS.most

    def find_cure(self, name: str, known: tuple[str, ...]) -> str:
        """Return the nearest known name, while there is time for it, or else some of them."""
        self.left -= 1
        return _find_cure(name, known) if self.left >= 0 else offer(known)


@dataclass(slots=True)
class RowCheck:
    """A row under inspection."""

    path: str
    line: int
    cells: Mapping[str, str]
    """By the column's name, without white space at the ends."""
    columns: Mapping[str, int]
    """Where each column stands, from 0."""
    findings: list[Finding] = field(default_factory=list)
    hints: Hints = field(default_factory=Hints)
    """Shared by all rows of a file."""

    @property
    def has_faults(self) -> bool:
        """Tell whether something is wrong that keeps the row out."""
        return any(finding.rule.severity is Severity.ERROR for finding in self.findings)

    def text(self, column: str) -> str:
        """Return what a cell says; nothing where the column is missing."""
        return self.cells.get(column, "")

    def at(self, column: str) -> Place:
        """Return the place of a cell; that of the row where its column is missing."""
        return Place(self.path, self.line, self.columns.get(column, 0) + 1)

    def refuse(self, column: str, fact: str, cure: str, rule: Rule = rules.VALUE_UNSOUND) -> None:
        """Note that a cell is wrong."""
        self.findings.append(rule.at(self.at(column), fact, cure))

    def require(self, column: str) -> str:
        """Return what a cell says; note it where it is empty."""
        text = self.text(column)
        if not text:
            self.refuse(column, f'the cell under "{column}" is empty', "fill it")
        return text

    def refuse_unlisted(
        self, column: str, name: str, known: Iterable[str], shown: str = ""
    ) -> None:
        """Note that nobody knows a name; ``shown`` stands for one that isn't to be said."""
        cure = self.hints.find_cure(name, tuple(known))
        shown = shown or f'"{name}"'
        self.refuse(column, f'{shown} under "{column}" is unknown', cure, rules.NAME_UNLISTED)

    def choose(self, column: str, words: Collection[str]) -> str | None:
        """Return which of some words a cell is, capitals aside; note it where it is none."""
        text = self.text(column)
        chosen = next((word for word in words if word.casefold() == text.casefold()), None)
        if chosen is None:
            self.refuse(column, f'"{text}" under "{column}" is no choice', offer(words))
        return chosen

    def read_day(self, column: str, today: date) -> date | None:
        """Return the day of a cell."""
        text = self.require(column)
        return self.parse_day(column, text, today) if text else None

    def parse_day(self, column: str, text: str, today: date) -> date | None:
        """Return the day that a text names; note it where there is none, or it is to come."""
        fault = _find_day_fault(text, today)
        if fault:
            self.refuse(column, *fault)
            return None
        return date.fromisoformat(text)

    def read_number(
        self, column: str, ends: tuple[float, float], *, is_whole: bool = False
    ) -> float | None:
        """Return the number of a cell, with a decimal point or comma; None where it is empty."""
        text = self.text(column).replace(_MINUS, "-")
        if not text:
            return None
        fault = _find_number_fault(text, ends, is_whole=is_whole)
        if fault:
            self.refuse(column, f'"{text}" under "{column}" {fault[0]}', fault[1])
            return None
        return float(text.replace(",", ".")) + 0.0  # no row says minus nought

    def read_count(self, column: str, most: int) -> int | None:
        """Return the whole number of a cell from 0; None where it is empty."""
        number = self.read_number(column, (0, most), is_whole=True)
        return None if number is None else int(number)


def inspect_rows(table: Table, columns: Mapping[str, int]) -> Iterator[RowCheck]:
    """Yield the rows of a table, ready to be read."""
    hints = Hints()
    for row in table.rows:
        cells = name_cells(row, columns)
        check = RowCheck(table.path, row.line, cells, columns, hints=hints)
        _refuse_swallowed_rows(check)
        yield check


def _refuse_swallowed_rows(check: RowCheck) -> None:
    """Note a cell whose later lines have as many cells as rows: two stray quotes make one of it."""
    width = max(_LEAST_SIGNS, len(check.columns) - 1)
    for column, text in check.cells.items():
        lines = text.splitlines()[1:]
        found = sum(any(line.count(sign) >= width for sign in SEPARATORS) for line in lines)
        if found:
            fact = f'the cell under "{column}" holds {found} lines that look like rows'
            cure = 'look for a stray " in this row and below, and write "" for one inside a cell'
            check.refuse(column, fact, cure, rules.ROW_UNREADABLE)


def name_cells(row: Row, columns: Mapping[str, int]) -> dict[str, str]:
    """Return the cells of a row by their column; a row may end early."""
    width = len(row.cells)
    return {name: row.cells[index].strip() for name, index in columns.items() if index < width}


@lru_cache(maxsize=1024)
def _find_cure(name: str, known: tuple[str, ...]) -> str:
    """Return the nearest known name; a file may have one slip in thousands of rows."""
    return suggest(name, known) or offer(known)


def _find_day_fault(text: str, today: date) -> tuple[str, str] | None:
    if not _DAY.fullmatch(text):
        return f'"{text}" is not written as year-month-day', "write it like 2026-11-24"
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return f"{text} is no day of the calendar", "correct it"
    if day > today:
        return f"{text} is still to come", "give the day on which it was"
    if day.year < _FIRST_YEAR:
        return f"{text} is before {_FIRST_YEAR}", "correct the year"
    return None


def _find_number_fault(
    text: str, ends: tuple[float, float], *, is_whole: bool
) -> tuple[str, str] | None:
    if not _NUMBER.fullmatch(text):
        return "is no number", "write digits only, such as 12 or 12.5"
    if _THOUSANDS.fullmatch(text):
        cure = f"write {text.replace(',', '.')} or {text.replace(',', '')}"
        return "can be read in two ways", cure
    number = float(text.replace(",", "."))
    least, most = ends
    if not least <= number <= most:
        cure = "see whether a digit or the unit slipped"
        return f"is outside {least:g} to {most:g}", cure
    if is_whole and not number.is_integer():
        return "is no whole number", "round it"
    return None
