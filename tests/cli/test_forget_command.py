"""`tempoleaf forget` as coaches run it: it shows, asks, takes away and proves."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import Result
from openpyxl import Workbook
from openpyxl.comments import Comment
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse
from tests.killed import run_killed

FILES = {
    "program/people.csv": "id,display name,conditions\nR1,Rosamund Tell,\nP2,Pim,pregnancy\n",
    "program/results.csv": (
        "date,person,measure,side,value\n"
        "2026-09-07,R1,breath-hold-seconds,,11\n2026-09-21,P2,breath-hold-seconds,,14\n"
    ),
    "program/attendance.csv": "date,person,lesson,outcome\n2026-09-07,R1,hand-on-belly,ready\n",
    "program/classes/2026-09-07-early.yml": "# Early\npeople: [R1, P2]\nminutes: 45\n",
    "program/classes/2026-09-09-alone.yml": "people: [R1]\nminutes: 45\n",
    "program/.people.csv.new": "id,display name,conditions\nR1,Rosamund Tell,\n",
    "coach/classes/2026-09-07-early/screen.html": "<p>Rosamund <b>Tell</b></p>",
    "coach/classes/2026-09-07-early/.tempoleaf": "",
    "coach/people/R1/week.ics": "BEGIN:VCALENDAR",
    "coach/people/R1/.tempoleaf": "",
    "coach/cards/long-out.html": "<p>Breathe out</p>",
}


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, *words: str, typed: str = "") -> Result:
    command = ["forget", *words, "--project", str(project)]
    return CliRunner().invoke(make_app(["forget", "person"]), command, input=typed)


def look(project: Path) -> dict[str, str]:
    paths = sorted((*(project / "program").rglob("*"), *(project / "coach").rglob("*")))
    return {
        path.relative_to(project).as_posix(): path.read_text()
        for path in paths
        if path.is_file() and path.name != ".records.lock"
    }


def test_nothing_of_a_person_is_left_and_all_of_others_is(project: Path) -> None:
    done = run(project, "R1", typed="R1\n")
    assert done.exit_code == 0, done.output
    assert "program/results.csv: one row goes" in done.output
    assert "2026-09-09-alone.yml: the file goes, because nobody else is in it" in done.output
    assert "screen.html: the file goes; print it anew when you need it" in done.output
    assert 'names "R1" any more: all was read.' in done.output
    assert look(project) == {
        "program/people.csv": "id,display name,conditions\nP2,Pim,pregnancy\n",
        "program/results.csv": (
            "date,person,measure,side,value\n2026-09-21,P2,breath-hold-seconds,,14\n"
        ),
        "program/attendance.csv": "date,person,lesson,outcome\n",
        "program/classes/2026-09-07-early.yml": "# Early\npeople: [P2]\nminutes: 45\n",
        "coach/classes/2026-09-07-early/.tempoleaf": "",
        "coach/cards/long-out.html": "<p>Breathe out</p>",
    }
    assert not (project / "coach/people").exists()  # a folder that is named after her


def test_another_id_takes_nothing_away(project: Path) -> None:
    before = look(project)
    done = run(project, "R1", typed="P2\n")
    assert isinstance(done.exception, BuilderError)
    assert look(project) == before


def test_somebody_unknown_is_told(project: Path) -> None:
    done = run(project, "R9", "--yes")
    assert isinstance(done.exception, BuilderError)
    assert done.exception.message.startswith('nothing of "R9" is in ')


def test_what_is_said_in_words_is_left_to_the_coach(project: Path) -> None:
    file = project / "program/classes/2026-09-07-early.yml"
    file.write_text(FILES["program/classes/2026-09-07-early.yml"] + "note: R1 and P2 sit.\n")
    (project / "coach/notes.txt").write_text("Call\nTell, Rosamund.\n")  # not printed by the tool
    before = look(project)
    done = run(project, "R1", "--yes")
    assert done.exit_code == 1
    assert 'coach/notes.txt:2: "Tell, Rosamund."\n' in done.output
    assert '2026-09-07-early.yml:4: "note: R1 and P2 sit."\nNothing was taken away.' in done.output
    assert look(project) == before


def test_all_else_goes_where_that_is_asked_for_and_what_stays_is_told(project: Path) -> None:
    said = "Rosamund Tell rang.\n"
    (project / "program/notes.txt").write_text(said)
    done = run(project, "R1", "--rest", typed="R1\n")
    assert done.exit_code == 1
    shown, _, told = done.output.partition("Type the id again")
    assert 'program/notes.txt:1: "Rosamund Tell rang."' in shown
    assert told.endswith('program/notes.txt:1: "Rosamund Tell rang."\n')
    left = {name: text for name, text in look(project).items() if "R1" in text or "Tell" in text}
    assert left == {"program/notes.txt": said}


def test_what_a_spreadsheet_says_beside_its_rows_is_told(project: Path) -> None:
    (project / "program/results.csv").unlink()
    book = Workbook()
    sheet = book["Sheet"]
    for row in (["date", "person", "measure", "value"], ["2026-09-07", "R1", "hold", 11]):
        sheet.append(row)
    sheet["D1"].comment = Comment("ask Rosamund Tell", "coach")
    book.save(project / "program/results.xlsx")
    done = run(project, "R1", "--yes", "--rest")
    assert done.exit_code == 1
    assert "program/results.xlsx: one row goes" in done.output
    *_, last = done.output.splitlines()
    assert last.endswith("program/results.xlsx:1: in xl/comments/comment1.xml")


def test_a_file_of_the_coach_that_cannot_be_opened_is_left_alone(project: Path) -> None:
    locked = project / "coach/classes/2026-09-07-early/old.age"
    locked.write_text("age-encryption.org/v1\n")
    done = run(project, "R1", "--yes", "--rest")
    assert done.exit_code == 1
    assert "old.age:1: it can't be opened (it is locked with a passphrase)" in done.output
    assert locked.exists()


@pytest.mark.skipif(sys.platform == "win32", reason="a process is forked and killed")
def test_killed_at_any_step_the_next_run_ends_it_and_others_lose_nothing(project: Path) -> None:
    words = ("forget", "R1", "--yes", "--project", str(project))
    found = run_killed("program,coach", project, *words)
    assert found["faults"] == []
    assert found["killed"] > 30
    shutil.rmtree(project)


def test_whoever_records_meanwhile_loses_nothing(project: Path) -> None:
    head = "kind,entry,date,person,lesson,outcome\n"
    rows = "".join(f"attendance,m{at},2026-09-21,P2,hand-on-belly,ready\n" for at in range(50))
    (project / "export.csv").write_text(head + rows)
    start = [sys.executable, "-c", "from builder.cli.app import main; main()"]
    place = ["--project", str(project)]
    running = [
        subprocess.Popen([*start, *words, *place], stdout=subprocess.DEVNULL)
        for words in (["record", str(project / "export.csv")], ["forget", "R1", "--yes"])
    ]
    recorded, forgot = (each.wait() for each in running)
    assert recorded == 0
    if forgot == 2:  # the files changed between showing and doing
        assert run(project, "R1", "--yes").exit_code == 0
    left = look(project)
    assert not [name for name, text in left.items() if "R1" in text]
    assert left["program/attendance.csv"].count(",P2,") == 50
