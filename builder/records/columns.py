"""Columns: which a table of records has, and where they stand in a file."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder import rules
from builder.course.names import offer, suggest
from builder.findings import Finding
from builder.records.table import Table


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, and other names that people give it."""

    name: str
    others: tuple[str, ...] = ()
    is_needed: bool = False
    """A table without it tells too little to be used."""


ENTRY = "entry"
PEOPLE = (
    Column("id", ("person", "person id"), is_needed=True),
    Column("display name", ("name",), is_needed=True),
    Column("birth year", ("year of birth", "born")),
    Column("sex for lung reference", ("sex", "lung reference")),
    Column("height cm", ("height",)),
    Column("weight kg", ("weight",)),
    Column("conditions", ("condition",), is_needed=True),
    Column("goal", ("goals",)),
    Column(
        "cleared",
    ),
    Column("hands on", ("hands on consent",)),
    Column(
        "language",
    ),
)
"""Conditions are needed, so that nobody is taken for well because a column was misspelt."""
RESULTS = (
    Column("date", ("day",), is_needed=True),
    Column("person", ("person id",), is_needed=True),
    Column("measure", is_needed=True),
    Column("side"),
    Column("value", is_needed=True),
    Column("unit"),
    Column("lesson"),
    Column("note", ("notes",)),
    Column(ENTRY),
)
ATTENDANCE = (
    Column("date", ("day",), is_needed=True),
    Column("person", ("person id",), is_needed=True),
    Column("lesson", is_needed=True),
    Column("outcome", is_needed=True),
    Column("breaths done", ("breaths",)),
    Column("rest seconds", ("rest", "rest s")),
    Column(ENTRY),
)
KEPT_ASIDE = (Column("row"), Column("reason"))
"""What a file of rows that were kept aside has before the columns of the original."""
EXPORT = (
    *KEPT_ASIDE,
    Column("kind", is_needed=True),
    Column(ENTRY),
    *(column for column in ATTENDANCE if column.name in ("date", "person")),
    *(Column(name) for name in ("lesson", "outcome")),
    *(column for column in ATTENDANCE if column.name in ("breaths done", "rest seconds")),
    *(Column(name) for name in ("measure", "side", "value", "unit")),
    Column("note", ("notes",)),
)
"""What a class screen gives out: attendance and results in one file (ours)."""

_BRACKETS = re.compile(r"\([^)]*\)|\[[^\]]*\]")
_BETWEEN = re.compile(r"[\s_-]+")


def list_names(columns: Iterable[Column], *, with_entry: bool = True) -> tuple[str, ...]:
    """Return the names of columns in their order."""
    return tuple(column.name for column in columns if with_entry or column.name != ENTRY)


def find_columns(
    table: Table, columns: Sequence[Column]
) -> tuple[Mapping[str, int] | None, list[Finding]]:
    """Return where each known column stands, from 0; None where needed ones are unclear."""
    known = {name: column.name for column in columns for name in (column.name, *column.others)}
    found: dict[str, int] = {}
    findings: list[Finding] = []
    for index, header in enumerate(table.header.cells):
        name = known.get(simplify(header))
        if name is None:
            findings += _tell_unknown(table, index, list_names(columns))
        elif name in found:
            fact = f'"{header}" is the second column for "{name}"'
            cure = "keep one of them"
            place = table.at(table.header.line, index + 1)
            findings.append(rules.COLUMNS_UNCLEAR.at(place, fact, cure))
        else:
            found[name] = index
    findings += _find_missing(table, columns, found)
    unclear = any(finding.rule is rules.COLUMNS_UNCLEAR for finding in findings)
    return None if unclear else found, findings


def simplify(header: str) -> str:
    """Return a header without brackets and capitals, with single spaces between words."""
    return _BETWEEN.sub(" ", _BRACKETS.sub(" ", header)).strip().casefold()


def _tell_unknown(table: Table, index: int, names: Sequence[str]) -> Iterator[Finding]:
    header = table.header.cells[index]
    place = table.at(table.header.line, index + 1)
    if simplify(header):
        cure = suggest(simplify(header), names) or "leave it: it is kept, but nothing reads it"
        yield rules.COLUMN_UNKNOWN.at(place, f'nothing reads the column "{header}"', cure)
    elif any("".join(row.cells[index : index + 1]).strip() for row in table.rows):
        yield rules.COLUMN_UNKNOWN.at(place, "this column has no name", offer(names))


def _find_missing(
    table: Table, columns: Iterable[Column], found: Mapping[str, int]
) -> Iterator[Finding]:
    for column in columns:
        if column.is_needed and column.name not in found:
            fact = f'the column "{column.name}" is missing'
            cure = "add it, even where its cells are empty"
            yield rules.COLUMNS_UNCLEAR.at(table.at(table.header.line), fact, cure)
