"""`tempoleaf person` as coaches run it."""

import json
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

FILES = {
    "program/people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,pregnancy\n",
    "program/results.csv": (
        "date,person,measure,side,value\n"
        "2026-09-07,R1,breath-hold-seconds,,11\n2026-09-21,R1,breath-hold-seconds,,14\n"
    ),
    "program/attendance.csv": (
        "date,person,lesson,outcome\n"
        "2026-09-07,R1,hand-on-belly,ready\n2026-09-09,R1,hand-on-belly,ready\n"
    ),
    "program/classes/2026-09-07-early.yml": "people: [R1]\nminutes: 45\n",
}


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, *words: str) -> Result:
    command = ["person", *words, "--project", str(project)]
    result = CliRunner().invoke(make_app(["person"]), command)
    if isinstance(result.exception, BuilderError):
        raise result.exception
    return result


def test_a_person_is_told_in_plain_words(project: Path) -> None:
    result = run(project, "R1", "--on", "2026-09-22")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(
        "Rosa (R1) on 22 Sep 2026\nLast class on 9 Sep 2026, 1 week ago."
    )
    assert "- comfortable hold: 14 s, was 11 s on 7 Sep 2026: longer, by" in result.stdout
    assert '- Breath: on to "Wide ribs": "Hand on the belly" is known' in result.stdout


def test_the_day_counts(project: Path) -> None:
    early = json.loads(run(project, "R1", "--on", "2026-09-08", "--json").stdout)
    assert early["known"] == []
    late = json.loads(run(project, "R1", "--on", "2026-12-01", "--json").stdout)
    assert (late["weeks_away"], late["strands"][0]["direction"]) == (11, "back")


def test_the_program_folder_may_be_named(project: Path) -> None:
    (project / "program").rename(project / "our-people")
    assert run(project, "R1", "--program", str(project / "our-people")).exit_code == 0


def test_an_unknown_id_is_answered_with_the_nearest(project: Path) -> None:
    with pytest.raises(BuilderError, match='nobody on record has the id "r1"; write "R1"'):
        run(project, "r1")


def test_rows_that_cannot_be_read_are_named_and_count(project: Path) -> None:
    path = project / "program/attendance.csv"
    path.write_text(path.read_text() + "2026-09-10,R1,hand-on-bely,ready\n", encoding="utf-8")
    result = run(project, "R1", "--on", "2026-09-22")
    assert result.exit_code == 1
    assert 'write "hand-on-belly" if that is meant' in result.stderr
    assert "Rosa (R1)" in result.stdout


def test_nothing_is_written(project: Path) -> None:
    before = sorted(path for path in project.rglob("*"))
    run(project, "P2")
    assert sorted(path for path in project.rglob("*")) == before
