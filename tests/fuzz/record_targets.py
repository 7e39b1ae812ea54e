"""Files of a program folder under trial: tables, exports, classes, weeks, plans, the studio."""

import shutil
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache, partial
from io import BytesIO
from pathlib import Path

from openpyxl import Workbook

from builder.findings import Finding
from builder.records.class_file import read_class
from builder.records.class_order import ClassOrder
from builder.records.class_text import write_class_text
from builder.records.csv_text import Layout, cut_rows, read_csv, write_csv_rows
from builder.records.inner_file import open_text, show_inner_path
from builder.records.plan import ClassPlan, PlannedBlock, Turn
from builder.records.plan_file import read_plan
from builder.records.plan_text import PlanNotes, write_plan
from builder.records.record_folder import RecordsReading, read_records
from builder.records.recording import record_export
from builder.records.spreadsheet import read_spreadsheet
from builder.records.spreadsheet_cut import cut_sheet_rows
from builder.records.studio_file import read_studio
from builder.records.weeks_file import read_weeks
from tests.fuzz.desk import PROGRAM, TODAY, give_course, give_known, lay, open_desk, read_files
from tests.fuzz.kinds import Answer, Target, count_lines
from tests.fuzz.zips import read_parts, write_parts

_DAY = "2026-11-24-mixed"
TABLE_WORDS = (
    *("date", "person", "lesson", "outcome", "measure", "side", "value", "unit", "note", "entry"),
    *("kind", "id", "display name", "conditions", "cleared", "C1", "C2", "left", "ready", "known"),
    *("attendance", "result", "pregnancy 2026-09-10", "breaths done", "sep=,", "row", "reason"),
)
GROUP_WORDS = (
    *("people", "minutes", "coaches", "props", "strands", "blocks", "rest", "new", "note", "C1"),
    *("weeks", "weekdays", "aim", "retest", "holidays", "tue", "count", "position", "lesson"),
    *(
        "look",
        "true",
        "without",
        "added",
        "own pace",
        "4-1-4-1",
        "name",
        "timezone",
        "mat",
        "brace",
    ),
)
_EXPORT = b"""kind,entry,date,person,lesson,outcome,breaths,rest,measure,side,value,unit,note
attendance,a-1,2026-11-24,C1,ready-to-start,ready,12,30,,,,,
attendance,a-2,2026-11-24,C2,ready-to-start,working,6,,,,,,
result,r-1,2026-11-24,C2,,,,,known,,breath,,\xe2\x80\x9cquoted\xe2\x80\x9d
"""


def read_csv_bytes(data: bytes) -> Answer:
    """Read CSV of any kind; what was read is written and read again, and a row is cut out."""
    table, layout, findings = read_csv("any.csv", data)
    if table is None:
        return Answer(None, tuple(findings), count_lines(data))
    rows = [row.cells for row in table.rows]
    header = table.header.cells

    def again() -> object:
        written = write_csv_rows([header, *rows], Layout(layout.separator))
        return _list_cells(written.encode())

    cut_rows(data, [table.rows[0].line] if table.rows else [])
    can_be_told = not header[0].lower().startswith(("sep=", "\ufeff"))
    return Answer(
        (table, layout),
        tuple(findings),
        count_lines(data),
        again if can_be_told and len(header) > 1 else None,
        (header, rows),
    )


def _list_cells(data: bytes) -> object:
    table, _, _ = read_csv("any.csv", data)
    return (table.header.cells, [row.cells for row in table.rows]) if table else None


def _make_folder() -> Path:
    """Give an empty program folder."""
    folder = open_desk() / "empty"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    return folder


def _read_folder(name: str, data: bytes) -> RecordsReading:
    """Read a program folder in which one file is under trial."""
    folder = _make_folder()
    if not name.startswith("people"):
        shutil.copy(PROGRAM / "people.csv", folder)
    (folder / name).write_bytes(data)
    return read_records(folder, give_course(), TODAY)


def read_table_bytes(name: str, data: bytes) -> Answer:
    """Read a file of people, results or attendance as every command does."""
    reading = _read_folder(name, data)
    own = tuple(each for each in reading.findings if each.place.path.endswith(name))
    lines = count_lines(data) if name.endswith(".csv") else None
    return Answer((reading.program, reading.half_known), own, lines)


def read_spreadsheet_bytes(data: bytes) -> Answer:
    """Read a spreadsheet by itself, and as a file of people; a row is cut out of it."""
    table, findings = read_spreadsheet("people.xlsx", data, "people")
    reading = _read_folder("people.xlsx", data)
    if table is None:
        return Answer(None, tuple(findings))
    cut = cut_sheet_rows(data, "people", [table.rows[0].line] if table.rows else [])
    own = tuple(each for each in reading.findings if each.place.path.endswith("xlsx"))
    return Answer((table, reading.program, read_parts(cut or b"")), (*findings, *own))


def record_bytes(data: bytes) -> Answer:
    """Record an export into a fresh program folder; a second time adds nothing."""
    folder = _make_folder()
    shutil.copy(PROGRAM / "people.csv", folder)
    file = lay("handed-over.csv", data)
    trial = record_export(file, folder, give_course(), TODAY, is_trial=True)
    done = record_export(file, folder, give_course(), TODAY)
    records = read_records(folder, give_course(), TODAY)
    on_record = len(records.program.results) + len(records.program.attendance)

    def again() -> object:
        second = record_export(file, folder, give_course(), TODAY)
        return len(second.added), second.aside, second.already

    told = tuple(each for each in done.findings if each.place.path == file.as_posix())
    value = done.added, done.aside, trial.added == done.added, on_record == len(done.added)
    expected = 0, done.aside, done.already + len(done.added)
    if not value[2] or not value[3]:
        return Answer(value, told, None, lambda: value, expected="a trial as good as the record")
    return Answer(value, told, count_lines(data), again, expected)


_Read = Callable[[str, str], tuple[object, Sequence[Finding]]]


def _read_inner(name: str, read: _Read, data: bytes) -> Answer:
    """Read a file of a program folder by way of the folder."""
    path = lay(f"program/{name}", data)
    program = open_desk() / "program"
    text, findings = open_text(program, path)
    if text is None:
        return Answer(None, tuple(findings), count_lines(data))
    value, faults = read(text, show_inner_path(program, path))
    return Answer(value, (*findings, *faults), count_lines(data))


def read_class_bytes(data: bytes) -> Answer:
    """Read a class file; what it says is written anew and read again."""
    known, name = give_known(), f"classes/{_DAY}.yml"
    answer = _read_inner(name, lambda text, path: read_class(text, path, known), data)
    order = answer.value
    if not isinstance(order, ClassOrder):
        return answer
    plain = replace(order, note="", most_blocks=10, rest_seconds=60, most_new=2)

    def again() -> object:
        path = order.place.path
        return read_class(write_class_text(plain, "a remark"), path, known)[0]

    return replace(answer, again=again, expected=plain)


def read_weeks_bytes(data: bytes) -> Answer:
    """Read a file for a course of several weeks."""
    known = give_known()
    name = "courses/2026-12-01-winter.yml"
    return _read_inner(name, lambda text, path: read_weeks(text, path, known), data)


def read_studio_bytes(data: bytes) -> Answer:
    """Read the studio's own file."""
    course = give_course()
    return _read_inner("studio.yml", lambda text, path: read_studio(text, path, course), data)


@cache
def _give_order() -> ClassOrder:
    """Return a class of the demo program."""
    text = (PROGRAM / f"classes/{_DAY}.yml").read_text(encoding="utf-8")
    order, _ = read_class(text, f"{_DAY}.yml", give_known())
    if order is None:
        raise LookupError("the class of the demo program can't be read")
    return order


def list_plans() -> tuple[bytes, ...]:
    """Return a plan in which one person is looked at closely, and one with somebody away."""
    people = tuple(sorted(_give_order().people))
    family = next(iter(give_course().vocabulary.families))
    lesson = give_course().lessons[0].id
    plans = (
        ClassPlan(_DAY, there, (PlannedBlock("4-1-4-1", family, _plan_turns(there, lesson)),) * 2)
        for there in (people, people[1:])
    )
    notes = PlanNotes(class_people=people, block_minutes=(4, 5.5))
    return tuple(write_plan(plan, notes).encode() for plan in plans)


def _plan_turns(people: Sequence[str], lesson: str) -> tuple[Turn, ...]:
    return tuple(Turn(person, lesson, person == people[0]) for person in people)


def read_plan_bytes(data: bytes) -> Answer:
    """Read a plan of a class; what it says is written anew and read again."""
    known, order = give_known(), _give_order()
    name = f"plans/{_DAY}.yml"
    answer = _read_inner(name, lambda text, path: read_plan(text, path, known, order), data)
    plan = answer.value
    if not isinstance(plan, ClassPlan):
        return answer
    same = replace(order, people=plan.people)
    return replace(
        answer, again=lambda: read_plan(write_plan(plan), name, known, same)[0], expected=plan
    )


@cache
def list_tables() -> tuple[bytes, ...]:
    """Return the heads of the demo program's tables; thousands of rows would teach nothing."""
    found = read_files("*.csv", folder=PROGRAM)
    return tuple(b"\n".join(data.split(b"\n")[:12]) + b"\n" for data in found)


@cache
def list_spreadsheets() -> tuple[bytes, ...]:
    """Return the demo program's tables as spreadsheets, packed with the same bytes each time."""
    made = [_save(PROGRAM / f"{name}.csv") for name in ("people", "results")]
    return tuple(write_parts(read_parts(each) or []) for each in made)


def _save(path: Path) -> bytes:
    book = Workbook()
    sheet = book.active
    if sheet is None:
        raise LookupError("a new workbook has no sheet")
    sheet.title = "people"
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines()[:9]):
        cells = line.split(",")
        sheet.append([*cells, number / 4, TODAY, "=1+1" if number == 3 else None, number > 4])
    target = BytesIO()
    book.save(target)
    return target.getvalue()


RECORD_TARGETS = (
    Target("csv", read_csv_bytes, lambda: (*list_tables(), _EXPORT), TABLE_WORDS),
    Target(
        "people",
        partial(read_table_bytes, "people.csv"),
        lambda: read_files("people.csv", folder=PROGRAM),
        TABLE_WORDS,
    ),
    Target("results", partial(read_table_bytes, "results.csv"), list_tables, TABLE_WORDS),
    Target(
        "attendance",
        partial(read_table_bytes, "attendance.csv"),
        list_tables,
        TABLE_WORDS,
    ),
    Target("export", record_bytes, lambda: (_EXPORT, *list_tables()), TABLE_WORDS),
    Target(
        "xlsx",
        read_spreadsheet_bytes,
        list_spreadsheets,
        ('<row r="2">', '<c t="s"><v>9</v></c>', "<!DOCTYPE x [<!ENTITY a 'b'>]>", "&a;", "r:id"),
        is_zip=True,
    ),
    Target(
        "class", read_class_bytes, lambda: read_files("classes/*.yml", folder=PROGRAM), GROUP_WORDS
    ),
    Target(
        "weeks", read_weeks_bytes, lambda: read_files("courses/*.yml", folder=PROGRAM), GROUP_WORDS
    ),
    Target("plan", read_plan_bytes, list_plans, GROUP_WORDS),
    Target(
        "studio", read_studio_bytes, lambda: read_files("studio.yml", folder=PROGRAM), GROUP_WORDS
    ),
)
