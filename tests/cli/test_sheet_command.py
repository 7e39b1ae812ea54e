"""`tempoleaf sheet` as coaches run it."""

import shutil
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

FILES = {
    "program/people.csv": (
        "id,display name,conditions\nR1,Rosa,\nP2,Pim,pregnancy\nQ3,Quirin,no-such-thing\n"
    ),
    "program/attendance.csv": "date,person,lesson,outcome\n2026-09-07,R1,hand-on-belly,again\n",
    "program/classes/2026-09-14-early.yml": "people: [R1]\nminutes: 45\n",
}
DAY = ("--on", "2026-09-08")


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, *words: str) -> Result:
    command = ["sheet", *words, "--project", str(project)]
    result = CliRunner().invoke(make_app(["sheet"]), command)
    if isinstance(result.exception, BuilderError):
        raise result.exception
    return result


def list_files(project: Path) -> list[str]:
    folder = project / "coach"
    files = folder.rglob("*.*") if folder.exists() else ()
    return sorted(path.name for path in files if path.is_file() and path.name[0] != ".")


def test_a_sheet_and_a_calendar_are_written(project: Path) -> None:
    (project / "program/people.csv").write_text(
        "id,display name,conditions\nR1,Rosa,\n", encoding="utf-8"
    )
    result = run(project, "R1", *DAY)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith("R1, 9 Sep 2026 to 6 Oct 2026: 1 lesson on 1 page\n")
    assert list_files(project) == ["practice.ics", "sheet.pdf"]
    assert "Rosa" not in result.stdout


def test_large_print_is_a_file_of_its_own(project: Path) -> None:
    run(project, "R1", "--large", "--weeks", "1", *DAY)
    assert list_files(project) == ["practice.ics", "sheet-large.pdf"]


def test_a_row_with_faults_is_told_and_others_get_their_sheet(project: Path) -> None:
    result = run(project, "R1", *DAY)
    assert result.exit_code == 1
    assert "no-such-thing" in result.stderr
    assert list_files(project) == ["practice.ics", "sheet.pdf"]


def test_somebody_whose_row_has_faults_gets_no_sheet(project: Path) -> None:
    with pytest.raises(BuilderError, match="nothing is planned from half of it"):
        run(project, "Q3", *DAY)
    assert list_files(project) == []


@pytest.mark.parametrize(
    ("file", "row"),
    [
        ("attendance", "2026-09-08,R1,hand-on-belly,easer\n"),
        ("attendance", "2026-09-08,rosa,no-such-lesson,ready\n"),
        ("results", "date,person,measure,side,value\n2026-09-08,R1,breath-hold-seconds,,lots\n"),
    ],
)
def test_somebody_of_whom_a_row_is_left_out_gets_no_sheet(
    project: Path, file: str, row: str
) -> None:
    with (project / f"program/{file}.csv").open("a", encoding="utf-8") as rows:
        rows.write(row)
    with pytest.raises(BuilderError, match="half a record"):
        run(project, "R1", *DAY)
    assert list_files(project) == []
    assert run(project, "P2", *DAY).exit_code == 1


def test_while_an_answer_is_open_there_are_no_lessons_and_no_days(project: Path) -> None:
    result = run(project, "P2", *DAY)
    assert "0 lessons" in result.stdout
    calendar = (project / "coach/people/P2/practice.ics").read_text(encoding="utf-8")
    assert "VEVENT" not in calendar


def test_a_faulty_class_file_stops_it_because_class_days_are_unknown(project: Path) -> None:
    (project / "program/classes/2026-09-14-early.yml").write_text("people: 7\n", encoding="utf-8")
    result = run(project, "R1", *DAY)
    assert result.exit_code == 1
    assert "2026-09-14-early.yml" in result.stderr
    assert list_files(project) == []


def test_a_lost_calendar_stops_it_and_the_old_sheet_stands(project: Path) -> None:
    run(project, "R1", *DAY)
    folder = project / "coach/people/R1"
    before = (folder / "sheet.pdf").read_bytes()
    (folder / "practice.ics").write_bytes(b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n")
    with pytest.raises(BuilderError, match="calendar from before"):
        run(project, "R1", "--on", "2026-09-10")
    assert (folder / "sheet.pdf").read_bytes() == before


def test_the_program_folder_may_be_named(project: Path) -> None:
    shutil.move(project / "program", project / "ours")
    run(project, "R1", "--program", str(project / "ours"), *DAY)
    assert list_files(project) == ["practice.ics", "sheet.pdf"]


def test_everybody_gets_a_sheet_and_who_cannot_is_told_with_the_reason(project: Path) -> None:
    result = run(project, "--all", *DAY)
    assert result.exit_code == 1
    assert result.stdout.startswith("3 sheets in ")
    assert ": 2 made, 0 stood already, 1 failed.\n" in result.stdout
    assert 'Q3: the row of "Q3" has faults' in result.stderr
    assert sorted(path.name for path in (project / "coach/people").iterdir()) == ["P2", "R1"]
    assert "Rosa" not in result.stdout + result.stderr


def test_a_second_run_prints_only_whose_records_changed(project: Path) -> None:
    run(project, "R1", "P2", *DAY)
    with (project / "program/attendance.csv").open("a", encoding="utf-8") as rows:
        rows.write("2026-09-08,R1,hand-on-belly,ready\n")
    result = run(project, "R1", "P2", "--quiet", *DAY)
    assert ": 1 made, 1 stood already, 0 failed.\n" in result.stdout


def test_one_sheet_is_the_same_alone_and_among_all(project: Path) -> None:
    run(project, "R1", *DAY)
    assert ": 1 made, 1 stood already, 0 failed.\n" in run(project, "R1", "P2", *DAY).stdout


@pytest.mark.parametrize("words", [(), ("R1", "--all")])
def test_it_must_be_clear_whose_sheets_are_meant(project: Path, words: tuple[str, ...]) -> None:
    with pytest.raises(BuilderError, match="give ids of people, or --all"):
        run(project, *words)


def test_sheets_do_not_travel_where_others_can_read_them(project: Path) -> None:
    with pytest.raises(BuilderError, match="not encrypted"):
        run(project, "R1", "--cluster", "tcp://10.0.0.7:8786", *DAY)
    assert list_files(project) == []
