"""`tempoleaf group` as coaches run it."""

from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

FILES = {
    "program/people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,pregnancy\nK1,Kit,\n",
    "program/attendance.csv": "date,person,lesson,outcome\n2026-09-07,R1,hand-on-belly,ready\n",
    "program/classes/2026-09-09-early.yml": "people: [R1, P2]\nminutes: 45\ncoaches: [K1]\n",
}


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path) -> Result:
    words = ["group", "--on", "2026-11-02", "--project", str(project)]
    return CliRunner().invoke(make_app(["group", "person"]), words)


def test_it_writes_both_pages_and_prints_a_line_each(project: Path) -> None:
    done = run(project)
    assert done.exit_code == 0, done.output
    lines = done.stdout.splitlines()
    assert lines[0] == "The group on 2 Nov 2026: 2 people"
    assert lines[1].startswith("P2  Pim   pregnancy: no answer")
    assert lines[2].startswith("R1  Rosa  8 weeks away")
    assert (project / "coach/group.pdf").is_file()
    assert "Kit" not in (project / "coach/group.html").read_text()


def test_files_that_cannot_be_read_are_told(project: Path) -> None:
    (project / "program/classes/2026-09-10-late.yml").write_text("people: [R7]\n")
    done = run(project)
    assert done.exit_code == 1
    assert '"R7" under "people" is unknown' in done.stderr


def test_an_id_with_a_sign_that_turns_words_round_costs_nobody_else_the_page(
    project: Path,
) -> None:
    with (project / "program/people.csv").open("a", encoding="utf-8") as file:
        file.write("\u202eX9,Ada,\n")
    done = run(project)
    assert done.exit_code == 1, done.exception
    assert "their rows have faults: \\u202eX9." in (project / "coach/group.html").read_text()


@pytest.mark.parametrize(
    "content", [b"date,person,lesson\n2026-11-24,R1,hand-on-belly\n", b"date,person\xff\xfe\n"]
)
def test_no_group_is_shown_without_the_whole_of_a_file(project: Path, content: bytes) -> None:
    (project / "program/attendance.csv").write_bytes(content)
    done = run(project)
    assert isinstance(done.exception, BuilderError)
    assert "attendance.csv" in str(done.exception)
    assert not (project / "coach").exists()
