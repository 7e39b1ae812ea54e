"""What a program folder tells of people, as it stands there, for a search and for nothing else.

Rows are taken even where they have faults: who can't be planned for can be named all the same.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from builder.findings import Finding
from builder.reading.yaml_tree import read_yaml
from builder.records.classes_folder import COURSES
from builder.records.columns import PEOPLE, RESULTS, Column, find_columns
from builder.records.folder import CLASSES
from builder.records.folder import PEOPLE as PEOPLE_FILE
from builder.records.folder import RESULTS as RESULTS_FILE
from builder.records.inner_file import list_inner_files, open_text
from builder.records.journal import stop_for
from builder.records.row_check import name_cells
from builder.records.studio_file import STUDIO_FILE
from builder.records.table import Row
from builder.records.table_file import find_table_file, read_table, show_path


class ToldKind(StrEnum):
    """What kind of text it is."""

    NAME = "display name"
    GOAL = "goal"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Told:
    """One text of a person."""

    kind: ToldKind
    person_id: str
    """Empty for a note on several people."""
    text: str


@dataclass(frozen=True, slots=True)
class ToldOfPeople:
    """All that a program folder tells."""

    folder: Path
    person_ids: tuple[str, ...]
    texts: tuple[Told, ...]
    public_names: tuple[str, ...]
    """Names that the studio wants to be public, by its own file."""


def read_told(folder: Path) -> ToldOfPeople:
    """Read what is told of people; BuilderError where the people can't be read at all."""
    texts: list[Told] = []
    ids: list[str] = []
    for cells in _read_rows(folder, PEOPLE_FILE, PEOPLE):
        person_id = cells.get("id", "")
        ids += [person_id] if person_id else []
        texts.append(Told(ToldKind.NAME, person_id, cells.get("display name", "")))
        texts.append(Told(ToldKind.GOAL, person_id, cells.get("goal", "")))
    texts += [
        Told(ToldKind.NOTE, cells.get("person", ""), cells.get("note", ""))
        for cells in _read_rows(folder, RESULTS_FILE, RESULTS)
    ]
    texts += _read_notes(folder)
    told = tuple(dict.fromkeys(each for each in texts if each.text.strip()))
    return ToldOfPeople(folder, tuple(dict.fromkeys(ids)), told, _read_public_names(folder))


def _read_rows(folder: Path, name: str, columns: Sequence[Column]) -> Iterator[dict[str, str]]:
    path, findings = find_table_file(folder, name)
    if path is None:
        _stop_on(findings)
        return
    table, findings = read_table(path, show_path(folder, path))
    if table is None:
        raise stop_for(findings)
    found, findings = find_columns(table, columns)
    if found is None:
        raise stop_for(findings)
    rows: tuple[Row, ...] = (*table.rows, *table.unread)
    for row in rows:
        yield dict(name_cells(row, found))


def _stop_on(findings: list[Finding]) -> None:
    if findings:
        raise stop_for(findings)


def _read_notes(folder: Path) -> Iterator[Told]:
    for name in (CLASSES, COURSES):
        for path in list_inner_files(folder, name)[0]:
            note = _read_values(folder, path).get("note")
            if isinstance(note, str):
                yield Told(ToldKind.NOTE, "", note)


def _read_public_names(folder: Path) -> tuple[str, ...]:
    path = folder / STUDIO_FILE
    names = _read_values(folder, path).get("public_names") if path.exists() else None
    return tuple(map(str, names)) if isinstance(names, list) else ()


def _read_values(folder: Path, path: Path) -> dict[str, object]:
    text, _ = open_text(folder, path)
    tree = read_yaml(text, path.name)[0] if text is not None else None
    return dict(tree.values) if tree else {}
