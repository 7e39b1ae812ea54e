"""`tempoleaf record` as coaches run it."""

from pathlib import Path

import pytest
from openpyxl import Workbook
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

PEOPLE = "id,display name,conditions\np-01,Ada Quill,pregnancy\np-02,Bo Tern,\n"
HEAD = (
    "kind,entry,date,person,lesson,outcome,breaths done,rest seconds,measure,side,value,unit,note"
)
ROWS = (
    "attendance,m1,2026-10-20,p-01,wide-ribs,ready,12,20,,,,,",
    "result,m2,2026-10-20,p-01,,,,,breath-hold-seconds,,12.5,s,calm",
    "attendance,m3,2026-10-20,p-02,wide-ribs,again,,,,,,,",
)


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    root = write_course({"program/people.csv": PEOPLE})
    (root / "program" / "classes").mkdir()
    return root


def record(project: Path, *rows: str, words: tuple[str, ...] = (), code: int = 0) -> str:
    file = project / "screen.csv"
    file.write_text("\n".join((HEAD, *rows)) + "\n", encoding="utf-8")
    return run(str(file), "--project", str(project), *words, code=code)


def run(*words: str, code: int = 0) -> str:
    done = CliRunner().invoke(make_app(["record"]), ["record", *words])
    if isinstance(done.exception, BuilderError):
        raise done.exception
    assert done.exit_code == code, done.output
    return done.output


def test_it_says_for_each_person_what_was_added(project: Path) -> None:
    assert record(project, *ROWS) == (
        "p-01: 1 attendance and 1 result added\np-02: 1 attendance added\n"
    )
    assert record(project, *ROWS) == "Nothing is new.\n3 rows were there already.\n"


def test_a_bad_row_is_told_and_kept_aside_and_the_rest_is_added(project: Path) -> None:
    said = record(project, ROWS[0].replace("ready", "done"), ROWS[2], code=1).splitlines()
    (kept,) = (project / "program" / "not-recorded").iterdir()
    assert said == [
        f'{project}/screen.csv:2:6: K106 value-unsound: "done" under "outcome" is no choice; '
        "use one of ready, again, easier.",
        "p-02: 1 attendance added",
        f"1 row can't be recorded and stands aside in {kept}.",
    ]


def test_a_dry_run_only_shows(project: Path) -> None:
    said = record(project, *ROWS, words=("--dry-run",))
    assert said.startswith("p-01: 1 attendance and 1 result would be added\n")
    assert sorted(path.name for path in (project / "program").iterdir()) == [
        "classes",
        "people.csv",
    ]


def test_a_spreadsheet_is_recorded_too(project: Path) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (HEAD, *ROWS):
        sheet.append([float(cell) if cell == "12.5" else cell or None for cell in row.split(",")])
    book.save(project / "screen.xlsx")
    said = run(str(project / "screen.xlsx"), "--project", str(project))
    assert said.startswith("p-01: 1 attendance and 1 result added\n")
    assert record(project, *ROWS).startswith("Nothing is new.")


def test_the_program_folder_can_be_given(project: Path, tmp_path: Path) -> None:
    other = tmp_path / "elsewhere"
    (project / "program").rename(other)
    with pytest.raises(BuilderError, match="give another with --program"):
        record(project, *ROWS)
    assert "p-01" in record(project, *ROWS, words=("--program", str(other)))
    assert (other / "attendance.csv").is_file()


def test_a_file_that_is_not_there_stops_the_run(project: Path) -> None:
    with pytest.raises(BuilderError, match=r'there is no file "nowhere\.csv"'):
        run("nowhere.csv", "--project", str(project))


def test_a_file_that_is_no_table_is_a_finding(project: Path) -> None:
    (project / "screen.csv").write_bytes(b"\x00\xff")
    assert run(str(project / "screen.csv"), "--project", str(project), code=1) == (
        f"{project}/screen.csv:1:1: K101 table-unreadable: the file is not UTF-8 text; save it as "
        "CSV in UTF-8.\nNothing was added.\n"
    )
