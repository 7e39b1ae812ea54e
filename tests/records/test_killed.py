"""Whatever ends a writer, and however many there are: nothing is lost and nothing stands twice."""

import csv
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.records.record_folder import read_records
from tests.killed import run_killed
from tests.records.conftest import TODAY, WriteProgram
from tests.running import run_tool

HEAD = (
    "kind,entry,date,person,lesson,outcome,breaths done,rest seconds,measure,side,value,unit,note"
)
OLD = "date,person,lesson,outcome\n2026-11-01,p-01,wide-ribs,again\n"
COMMAND = [sys.executable, "-c", "from builder.cli.app import main; main()", "record"]


def make_rows(writer: int, number: int) -> list[str]:
    shared = [f"attendance,all-{each},2026-11-20,p-02,wide-ribs,again,,,,,,," for each in range(5)]
    own = [
        f"result,w{writer}-{each},2026-11-20,p-01,,,,,hold,,{writer + each},s,"
        for each in range(number)
    ]
    return [HEAD, *shared, *own]


@pytest.mark.skipif(sys.platform == "win32", reason="a process is forked and killed")
def test_killed_at_any_step_a_file_is_old_or_new_and_the_next_run_ends_it(
    project: Path, write_program: WriteProgram, tmp_path: Path
) -> None:
    write_program({"attendance.csv": OLD})
    export = tmp_path / "screen.csv"
    export.write_text("\n".join([*make_rows(1, 3), "result,bad,,,,,,,,,,,"]) + "\n")
    found = run_killed("program", project, "record", str(export), "--project", str(project))
    assert found["faults"] == []
    assert found["killed"] > 30
    assert [name.partition("-")[0] for name in found["files"]] == [
        "program/attendance.csv",
        "program/not",
        "program/people.csv",
        "program/results.csv",
    ]


def test_writers_at_once_lose_nothing_and_add_nothing_twice(
    project: Path, course: Course, write_program: WriteProgram, tmp_path: Path
) -> None:
    folder = write_program({"attendance.csv": OLD})
    running = []
    for writer in range(6):
        export = tmp_path / f"screen-{writer}.csv"
        export.write_text("\n".join(make_rows(writer, 10)) + "\n")
        for _ in range(1 + writer % 2):
            words = [*COMMAND, str(export), "--project", str(project)]
            running.append(subprocess.Popen(words, stdout=subprocess.DEVNULL))
    assert [each.wait() for each in running] == [0] * 9
    program = read_records(folder, course, TODAY)
    assert program.findings == ()
    assert Counter(row.entry for row in program.program.attendance) == Counter(
        ["", *(f"all-{each}" for each in range(5))]
    )
    assert Counter(row.entry for row in program.program.results) == Counter(
        f"w{writer}-{each}" for writer in range(6) for each in range(10)
    )


def test_when_the_disk_is_full_the_old_file_stands(
    project: Path, write_program: WriteProgram, tmp_path: Path
) -> None:
    """A limit on the size of files stands for the disk: a write fails half-way in both."""
    resource = pytest.importorskip("resource")
    rows = [f"2026-11-01,p-01,wide-ribs,again,{each}" for each in range(200)]
    old = "\n".join(["date,person,lesson,outcome,mine", *rows]) + "\n"
    folder = write_program({"attendance.csv": old})
    export = tmp_path / "screen.csv"
    export.write_text("\n".join(make_rows(1, 0)) + "\n")
    done = subprocess.run(
        [*COMMAND, str(export), "--project", str(project)],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000)),
    )
    assert done.returncode == 2
    assert done.stderr.startswith("cannot go on: ")
    assert (folder / "attendance.csv").read_text() == old
    assert sorted(path.name for path in folder.iterdir()) == [
        *(".records.lock", "attendance.csv", "classes", "people.csv")
    ]


def test_the_header_of_the_old_file_gains_its_column_and_old_rows_stay(
    project: Path, write_program: WriteProgram, tmp_path: Path
) -> None:
    folder = write_program({"attendance.csv": OLD})
    export = tmp_path / "screen.csv"
    export.write_text("\n".join(make_rows(1, 0)) + "\n")
    subprocess.run(
        [*COMMAND, str(export), "--project", str(project)], check=True, stdout=subprocess.DEVNULL
    )
    with (folder / "attendance.csv").open(newline="") as file:
        head, first, *added = csv.reader(file, strict=True)
    assert head == ["date", "person", "lesson", "outcome", "entry"]
    assert first == ["2026-11-01", "p-01", "wide-ribs", "again"]
    assert [row[-1] for row in added] == [f"all-{each}" for each in range(5)]


def test_when_the_clock_was_set_back_rows_ahead_stand_aside_and_nothing_is_lost(
    project: Path, write_program: WriteProgram, tmp_path: Path
) -> None:
    folder = write_program({"attendance.csv": OLD.replace("2026-11-01", "2999-11-01")})
    before = (folder / "attendance.csv").read_text()
    export = tmp_path / "screen.csv"
    row = "attendance,ahead,2999-11-02,p-01,wide-ribs,again,,,,,,,"
    export.write_text("\n".join([HEAD, row]) + "\n")
    done = run_tool("record", str(export), "--project", str(project))
    assert done.returncode == 1
    assert "2999-11-02 is still to come" in done.stdout
    assert (folder / "attendance.csv").read_text() == before
    (aside,) = (folder / "not-recorded").iterdir()
    assert row in aside.read_text()
