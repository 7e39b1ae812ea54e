"""Forgetting: what of a program folder has to change so that nothing of a person is left.

Only here are records ever rewritten. The row in the file of people goes last, so that a run that
was killed can be done again and still knows the name.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.errors import BuilderError
from builder.reading.yaml_cut import cut_name
from builder.records.classes_folder import COURSES
from builder.records.columns import ATTENDANCE, PEOPLE, RESULTS, Column, find_columns
from builder.records.csv_text import cut_rows, read_csv
from builder.records.folder import ATTENDANCE as ATTENDANCE_FILE
from builder.records.folder import CLASSES
from builder.records.folder import PEOPLE as PEOPLE_FILE
from builder.records.folder import RESULTS as RESULTS_FILE
from builder.records.inner_file import ENDING
from builder.records.journal import stop_for
from builder.records.plan_file import PLANS
from builder.records.recording import KEPT_FOLDER
from builder.records.row_check import name_cells
from builder.records.spreadsheet import name_sheet
from builder.records.spreadsheet_cut import cut_sheet_rows
from builder.records.table import Table
from builder.records.table_file import (
    CSV,
    find_table_file,
    parse_table,
    read_content,
    read_table,
    show_path,
)
from builder.work.whole import write_whole_bytes

_KEYS = ("people", "without", "added")
"""Under these keys, files of classes and plans name people."""


@dataclass(frozen=True, slots=True)
class Change:
    """One file as it will be."""

    path: Path
    what: str
    content: bytes | None
    """None where the file goes whole."""


@dataclass(frozen=True, slots=True)
class Remainder:
    """What a coach has to change by hand."""

    path: Path
    spot: str
    said: str
    """What stands there, or what to do."""
    is_sure: bool = True
    """False where a file can't be opened, so that nobody can tell."""

    def __str__(self) -> str:
        """Write file, spot and words on one line."""
        return f"{self.path}:{self.spot}: {self.said}"


def list_names(folder: Path, person_id: str) -> tuple[str, ...]:
    """Return the display name of a person; none where it is another's too, or there is no row.

    BuilderError where several have that id, since nobody can tell whose rows are whose.
    """
    opened = _open(folder, PEOPLE_FILE, PEOPLE)
    rows = [name_cells(row, opened[2]) for row in opened[1].rows] if opened else []
    own = [cells for cells in rows if cells.get("id", "").casefold() == person_id.casefold()]
    if len(own) > 1:
        raise BuilderError(
            f'"{person_id}" has {len(own)} rows in the file of people',
            "give each person an id of their own first, in every file that names them",
        )
    names = Counter(cells.get("display name", "").casefold() for cells in rows)
    said = (cells.get("display name", "") for cells in own)
    return tuple(name for name in said if name and names[name.casefold()] == 1)


def list_changes(folder: Path, person_id: str) -> tuple[Change | Remainder, ...]:
    """Return what has to change, in the order in which it is done, and what can't be cut."""
    names = list_names(folder, person_id)
    return (
        *_cut_from_texts(folder, person_id),
        *_cut_from_kept(folder, (person_id, *names)),
        *_cut_from_table(folder, RESULTS_FILE, RESULTS, "person", person_id),
        *_cut_from_table(folder, ATTENDANCE_FILE, ATTENDANCE, "person", person_id),
        *_cut_from_table(folder, PEOPLE_FILE, PEOPLE, "id", person_id),
    )


def make_changes(changes: Sequence[Change]) -> None:
    """Make each change, whole or not at all; the folder has to be held."""
    for change in changes:
        if change.content is None:
            change.path.unlink(missing_ok=True)
        else:
            write_whole_bytes(change.path.resolve(), change.content)


def _cut_from_texts(folder: Path, person_id: str) -> Iterator[Change]:
    for name in (PLANS, CLASSES, COURSES):
        for path in sorted((folder / name).rglob(f"*{ENDING}")):
            if path.is_file():
                yield from _cut_from_text(path, person_id)


def _cut_from_text(path: Path, person_id: str) -> Iterator[Change]:
    old = path.read_bytes()
    try:
        text = old.decode("utf-8")
    except UnicodeDecodeError:
        return
    new = cut_name(text, person_id, _KEYS)
    if new is None and person_id.casefold() in text.casefold():
        yield Change(path, "the file goes, because the person can't be cut out of it safely", None)
    elif new == "":
        yield Change(path, "the file goes, because nobody else is in it", None)
    elif new is not None and new != text:
        lines = text.count("\n") - new.count("\n")
        what = f"{lines} lines go" if lines > 1 else "one name goes"
        yield Change(path, what, new.encode())


def _cut_from_kept(folder: Path, words: Sequence[str]) -> Iterator[Change]:
    wanted = {word.casefold() for word in words}
    for path in sorted((folder / KEPT_FOLDER).glob(f"*{CSV}")):
        content, _ = read_content(path, path.name)
        table = read_csv(path.name, content)[0] if content else None
        if content is None or table is None:
            continue
        numbers = [
            row.line
            for row in (*table.rows, *table.unread)
            if any(cell.strip().casefold() in wanted for cell in row.cells)
        ]
        if numbers and len(numbers) == len(table.rows) + len(table.unread):
            yield Change(path, "the file goes, because all its rows do", None)
        elif numbers:
            yield Change(path, _say_rows(numbers), cut_rows(content, numbers))


def _cut_from_table(
    folder: Path, name: str, columns: Sequence[Column], column: str, person_id: str
) -> Iterator[Change | Remainder]:
    opened = _open(folder, name, columns)
    if opened is None:
        return
    path, table, found = opened
    numbers = [
        row.line
        for row in sorted((*table.rows, *table.unread), key=lambda row: row.line)
        if name_cells(row, found).get(column, "").casefold() == person_id.casefold()
    ]
    if not numbers:
        return
    old = path.read_bytes()
    new = _cut_rows(path, old, numbers)
    if new is not None and _reads_as_before(path, table, new, numbers):
        yield Change(path, _say_rows(numbers), new)
    elif path.suffix == CSV:
        raise BuilderError(
            f'"{path}" would not read as before without these rows',
            "save it again as CSV in UTF-8 from the program that made it",
        )
    else:
        sheet = name_sheet(old, name)
        rows = ", ".join(map(str, numbers))
        yield Remainder(path, f'sheet "{sheet}", row {rows}', "delete it in a spreadsheet program")


def _cut_rows(path: Path, old: bytes, numbers: Sequence[int]) -> bytes | None:
    if path.suffix == CSV:
        return cut_rows(old, numbers)
    return cut_sheet_rows(old, path.stem.lower(), numbers)


def _open(
    folder: Path, name: str, columns: Sequence[Column]
) -> tuple[Path, Table, dict[str, int]] | None:
    path, findings = find_table_file(folder, name)
    if findings:
        raise stop_for(findings)
    if path is None or not path.stat().st_size:
        return None
    table, findings = read_table(path, show_path(folder, path))
    if table is None:
        raise stop_for(findings)
    found, findings = find_columns(table, columns)
    if found is None:
        raise stop_for(findings)
    return path, table, dict(found)


def _reads_as_before(path: Path, before: Table, new: bytes, numbers: Sequence[int]) -> bool:
    """Read the new bytes back: nobody else's row may have gone or changed."""
    after, _ = parse_table(path, path.name, new)
    kept = [row.cells for row in before.rows if row.line not in numbers]
    unread = [row.cells for row in before.unread if row.line not in numbers]
    return (
        after is not None
        and [row.cells for row in after.rows] == kept
        and [row.cells for row in after.unread] == unread
    )


def _say_rows(numbers: Sequence[int]) -> str:
    return f"{len(numbers)} rows go" if len(numbers) > 1 else "one row goes"
