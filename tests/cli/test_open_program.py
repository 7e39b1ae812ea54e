"""What every command that plans for people refuses, and refuses alike."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

CLASS, WEEKS = "classes/2026-12-01-early.yml", "courses/2026-12-01-winter.yml"
PEOPLE = "id,display name,conditions\nR1,Rosa,\nP2,Pim,\n"
FILES = {
    "program/people.csv": PEOPLE,
    "program/attendance.csv": "date,person,lesson,outcome\n2026-11-24,R1,hand-on-belly,ready\n",
    f"program/{CLASS}": "people: [R1, P2]\nminutes: 45\n",
    f"program/{WEEKS}": (
        "people: [R1, P2]\nweeks: 2\nweekdays: [tue]\nminutes: 45\naim: [short-hold]\n"
    ),
}
DAY = ("--on", "2026-11-26")
PLANNING = [
    ["person", "R1", *DAY],
    ["class", CLASS, "--print"],
    ["weeks", WEEKS, "--write", *DAY],
    ["sheet", "R1", *DAY],
    ["group", *DAY],
]
FORGETTING = ["forget", "R1", "--yes"]
LOST_FILES = [
    ("people", PEOPLE.encode("utf-16"), "UTF-16"),
    ("people", b"id,display name,illness\nR1,Rosa,\n", '"conditions" is missing'),
    ("attendance", b"date,person,lesson\n2026-11-24,R1,hand-on-belly\n", '"outcome" is missing'),
    ("attendance", "date,person,lesson,outcome\n".encode("utf-16"), "UTF-16"),
    ("results", b"date\n2026-11-24\n", "is missing"),
]
each_command = pytest.mark.parametrize("words", PLANNING, ids=lambda words: words[0])


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, words: list[str]) -> Result:
    return CliRunner().invoke(make_app(words[:1]), [*words, "--project", str(project)])


def expect_refusal(project: Path, words: list[str], fact: str) -> None:
    """Hold a command to one sentence with its cure, nothing told and nothing written."""
    before = dict(list_files(project))
    done = run(project, words)
    assert isinstance(done.exception, BuilderError), done.output
    assert re.search(fact, str(done.exception))
    assert done.exception.cure
    assert done.stdout == ""
    assert dict(list_files(project)) == before


def list_files(project: Path) -> Iterator[tuple[Path, bytes]]:
    for path in project.rglob("*"):
        if path.is_file() and path.name != ".records.lock":
            yield path, path.read_bytes()


@each_command
def test_all_is_well_where_all_is_there(project: Path, words: list[str]) -> None:
    done = run(project, words)
    assert done.exit_code == 0, done.output


@each_command
def test_a_listed_notice_that_is_missing_stops_it(project: Path, words: list[str]) -> None:
    course = project / "content/course.yml"
    listed = course.read_text(encoding="utf-8") + "notices: [lost-one]\n"
    course.write_text(listed, encoding="utf-8")
    expect_refusal(project, words, '"lost-one" is missing')


@each_command
def test_a_notice_that_cannot_be_read_stops_it(project: Path, words: list[str]) -> None:
    notice = sorted((project / "content/notices").glob("*.md"))[0]
    notice.write_text("---\ntitle: 7\n---\n", encoding="utf-8")
    expect_refusal(project, words, f'"{notice.stem}" can\'t be read')


@each_command
def test_a_lost_placement_table_stops_it(project: Path, words: list[str]) -> None:
    (project / "content/placement.yml").write_text("ask_first: [You are ill]\n", encoding="utf-8")
    expect_refusal(project, words, "where people start is lost")


@pytest.mark.parametrize("words", [*PLANNING, FORGETTING], ids=lambda words: words[0])
@pytest.mark.parametrize(("name", "content", "fact"), LOST_FILES)
def test_a_file_of_records_that_is_lost_stops_it(
    project: Path, words: list[str], name: str, content: bytes, fact: str
) -> None:
    (project / f"program/{name}.csv").write_bytes(content)
    expect_refusal(project, words, re.escape(fact))


@pytest.mark.parametrize("words", PLANNING[:-1], ids=lambda words: words[0])
def test_a_person_whose_row_has_faults_stops_it(project: Path, words: list[str]) -> None:
    (project / "program/people.csv").write_text(
        PEOPLE.replace("Rosa,", "Rosa,no-such-thing"), encoding="utf-8"
    )
    done = run(project, words)
    assert isinstance(done.exception, BuilderError) or done.exit_code == 1
    assert "R1" in f"{done.exception} {done.stderr}"
    assert done.stdout == ""


def test_the_group_tells_whose_row_has_faults(project: Path) -> None:
    (project / "program/people.csv").write_text(
        PEOPLE.replace("Rosa,", "Rosa,no-such-thing"), encoding="utf-8"
    )
    done = run(project, PLANNING[-1])
    assert done.exit_code == 1
    assert "no-such-thing" in done.stderr
    assert "R1" in done.stdout


def test_a_lost_notice_keeps_nobody_from_being_forgotten(project: Path) -> None:
    for path in (project / "content").rglob("*.*"):
        path.unlink()
    assert run(project, FORGETTING).exit_code == 0
    assert "R1" not in (project / "program/people.csv").read_text(encoding="utf-8")
