"""A program folder to its people, results and attendance, with every problem of every row."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Generic, TypeVar

from builder import rules
from builder.course.course import Course
from builder.errors import BuilderError
from builder.findings import Finding, Place, Severity, sort_findings
from builder.reading.latest_day import find_latest_day
from builder.records.attendance import Attendance
from builder.records.columns import ATTENDANCE, ENTRY, PEOPLE, RESULTS, Column, find_columns
from builder.records.event_rows import read_attendance, read_result
from builder.records.folder import ATTENDANCE as ATTENDANCE_FILE
from builder.records.folder import PEOPLE as PEOPLE_FILE
from builder.records.folder import RESULTS as RESULTS_FILE
from builder.records.journal import stop_for
from builder.records.known import Known
from builder.records.people_table import read_person
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result
from builder.records.row_check import RowCheck, inspect_rows, name_cells
from builder.records.table import Table
from builder.records.table_file import CSV, find_table_file, read_table, show_path

_Event = TypeVar("_Event", Attendance, Result)
_LOST = (rules.TABLE_UNREADABLE, rules.COLUMNS_UNCLEAR)
"""What keeps a whole file out."""


@dataclass(frozen=True, slots=True)
class _EventRows(Generic[_Event]):
    """Rows of one kind: those that are sound, whose others are left out, and what is wrong."""

    events: Sequence[_Event]
    half_known: Sequence[str]
    findings: Sequence[Finding]


@dataclass(frozen=True, slots=True)
class RecordsReading:
    """What was read: the rows that are sound, and what is wrong with the rest."""

    program: Program
    """Without classes, which are files of their own."""
    known: Known
    """What rows may name; nothing may be planned for those whose own rows have faults."""
    half_known: frozenset[str]
    """Ids of people of whom a result or an attendance can't be read, so that one is left out."""
    findings: tuple[Finding, ...]

    @property
    def faults(self) -> tuple[Finding, ...]:
        """Return what keeps rows out; the rest are remarks."""
        return tuple(each for each in self.findings if each.rule.severity is Severity.ERROR)

    def refuse_half_known(self, person_id: str) -> None:
        """Raise BuilderError where a row of a person is left out: it may say "too much"."""
        if person_id in self.half_known:
            raise BuilderError(
                f'rows of "{person_id}" can\'t be read, and nothing is planned from half a record',
                "mend what `tempoleaf check --program` finds in them",
            )


def read_whole_records(folder: Path, course: Course, today: date | None = None) -> RecordsReading:
    """Read what a program folder records; BuilderError where one of its files can't be read.

    Without the whole of a file somebody could lose a caution, or a step back.
    """
    reading = read_records(folder, course, today)
    lost = [each for each in reading.faults if each.rule in _LOST]
    if lost:
        raise stop_for(lost)
    return reading


def read_records(folder: Path, course: Course, today: date | None = None) -> RecordsReading:
    """Read what a program folder records; each bad row is a finding, and the rest is kept."""
    known, findings = read_people(folder, course, today)
    results = _read_events(folder, RESULTS_FILE, RESULTS, known, read_result)
    attendance = _read_events(folder, ATTENDANCE_FILE, ATTENDANCE, known, read_attendance)
    return RecordsReading(
        Program(known.people, tuple(results.events), tuple(attendance.events)),
        known,
        frozenset((*results.half_known, *attendance.half_known)),
        sort_findings((*findings, *results.findings, *attendance.findings)),
    )


def read_people(
    folder: Path, course: Course, today: date | None = None
) -> tuple[Known, list[Finding]]:
    """Read the people of a program folder, as what other rows may name."""
    day = today or find_latest_day()
    table, columns, findings = _open_table(folder, PEOPLE_FILE, PEOPLE)
    if table is None:
        return Known(course, day, has_people=False), findings or [_tell_no_people(folder)]
    people: dict[str, Person] = {}
    unreadable = set(_list_unread_ids(table, columns))
    taken = {person_id.casefold(): person_id for person_id in unreadable}
    nobody = Known(course, day)
    for check in inspect_rows(table, columns):
        person = read_person(check, nobody)
        person_id = check.text("id")
        earlier = taken.setdefault(person_id.casefold(), person_id) if person_id else ""
        if earlier in people or earlier in unreadable:
            _refuse_double(check, person_id)
            people.pop(earlier, None)
            unreadable.add(earlier)
        elif person:
            people[person.id] = person
        elif person_id:
            unreadable.add(person_id)
        findings += check.findings
    return Known(course, day, people, frozenset(unreadable)), findings


def _refuse_double(check: RowCheck, person_id: str) -> None:
    """Note a second row of one id: nobody can tell which holds, so neither does."""
    fact = f'"{person_id}" has a row already, and nothing is planned by either'
    cure = "put all of one person into one row, or give another person another id"
    check.refuse("id", fact, cure, rules.ROW_DOUBLED)


def find_events(
    folder: Path, name: str, columns: Sequence[Column]
) -> tuple[list[RowCheck] | None, list[Finding]]:
    """Return the rows of one kind that are on record, not yet looked into.

    None where their file can't be read; none at all where there is no file yet.
    """
    table, found, findings = _open_table(folder, name, columns)
    if table is not None:
        return list(inspect_rows(table, found)), findings
    return (None if findings else []), findings


def _read_events(
    folder: Path,
    name: str,
    columns: Sequence[Column],
    known: Known,
    read: Callable[[RowCheck, Known], _Event | None],
) -> _EventRows[_Event]:
    checks, findings = find_events(folder, name, columns)
    events: list[_Event] = []
    half_known = [] if checks is not None else list(known.people)
    first_lines: dict[str, int] = {}
    for check in checks or ():
        event = read(check, known)
        entry = check.text(ENTRY)
        if entry and entry in first_lines:
            fact = f'the mark "{entry}" stands in row {first_lines[entry]} already'
            check.refuse(ENTRY, fact, "take this row out", rules.ROW_DOUBLED)
        elif event and event.person_id in known.people:
            events.append(event)
        first_lines.setdefault(entry, check.line)
        half_known += [] if event else [_name_person(check, known)]
        findings += check.findings
    return _EventRows(events, half_known, findings)


def _name_person(check: RowCheck, known: Known) -> str:
    """Return the id of whom a row names, or what it says where that is nobody."""
    who = check.text("person").casefold()
    return known.person_ids.get(who) or known.ids_by_name.get(who) or who


def _open_table(
    folder: Path, name: str, columns: Sequence[Column]
) -> tuple[Table | None, Mapping[str, int], list[Finding]]:
    """Read a table of a folder; without findings, None says that there is no such file."""
    path, findings = find_table_file(folder, name)
    if path is None:
        return None, {}, findings
    table, findings = read_table(path, show_path(folder, path))
    if table is None:
        return None, {}, findings
    found, faults = find_columns(table, columns)
    return (None if found is None else table), found or {}, findings + faults


def _list_unread_ids(table: Table, columns: Mapping[str, int]) -> Iterator[str]:
    """Yield the ids of rows that could be parted into cells, but no more than that."""
    for row in table.unread:
        person_id = name_cells(row, columns).get("id", "")
        if len(row.cells) > 1 and person_id:
            yield person_id


def _tell_no_people(folder: Path) -> Finding:
    place = Place(show_path(folder, folder / f"{PEOPLE_FILE}{CSV}"))
    return rules.TABLE_UNREADABLE.at(place, "there is no such file", "make it, one row a person")
