"""`tempoleaf weeks` as coaches run it."""

import json
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

FILE = "courses/2026-12-01-winter.yml"
WINTER = """\
people: [R1, P2]
weeks: 4
weekdays: [tue, sat]
minutes: 45
aim: [short-hold]
retest: 2
coaches: [K1]
"""
FILES = {
    "program/people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,high-blood-pressure\n",
    "program/attendance.csv": "date,person,lesson,outcome\n2026-11-24,R1,hand-on-belly,ready\n",
    "program/results.csv": (
        "date,person,measure,side,value\n2026-11-24,R1,breath-hold-seconds,,20\n"
    ),
    "program/classes/2026-12-05-winter.yml": "people: [R1]\nminutes: 45\n",
    f"program/{FILE}": WINTER,
}


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, *words: str) -> Result:
    command = ["weeks", FILE, *words, "--project", str(project)]
    if "--on" not in words:
        command += ["--on", "2026-11-26"]
    result = CliRunner().invoke(make_app(["weeks"]), command)
    if isinstance(result.exception, BuilderError):
        raise result.exception
    return result


def test_days_people_reasons_and_the_caution_are_told(project: Path) -> None:
    result = run(project)
    assert result.exit_code == 0, result.output
    lines = result.output.splitlines()
    assert lines[0].startswith("2026-12-01-winter: 2 people, 8 class days of 45 minutes")
    assert "tue 1 Dec 2026, week 1  breath" in lines
    assert any(line.startswith("tue 8 Dec 2026, week 2  RETEST") for line in lines)
    assert "  R1 (Rosa): 22 Dec 2026" in lines
    pim = next(line for line in lines if line.startswith("  P2 (Pim): "))
    assert "short-hold is on the way, and barred" in pim
    assert "a licensed clinician comes first" in pim
    assert "an expectation, not a promise" in result.output
    assert "not medical advice" in result.output


def test_programs_get_the_same_as_json(project: Path) -> None:
    got = json.loads(run(project, "--json").stdout)
    assert [day["day"] for day in got["days"]][:2] == ["2026-12-01", "2026-12-05"]
    assert got["days"][0]["lessons"]["R1"] == ["hand-on-belly"]
    assert got["reached"] == {"R1": "2026-12-22"}
    assert [each["cause"] for each in got["not_reached"]] == ["hindered"]
    assert got["is_proven"] is True


def test_class_files_are_written_for_days_that_have_none(project: Path) -> None:
    result = run(project, "--write")
    classes = project / "program/classes"
    first = (classes / "2026-12-01-winter.yml").read_text(encoding="utf-8")
    assert "strands: [breath]" in first
    assert "people: [R1, P2]" in first
    assert (classes / "2026-12-05-winter.yml").read_text(encoding="utf-8") == FILES[
        "program/classes/2026-12-05-winter.yml"
    ]
    assert "stands already, left alone: 2026-12-05-winter.yml" in result.output
    again = {path.name: path.read_bytes() for path in classes.iterdir()}
    run(project, "--write")
    assert {path.name: path.read_bytes() for path in classes.iterdir()} == again


def test_a_file_with_faults_is_told_and_nothing_is_planned(project: Path) -> None:
    file = project / "program" / FILE
    file.write_text(WINTER.replace("short-hold", "short-hodl"), encoding="utf-8")
    result = run(project)
    assert result.exit_code == 1
    assert 'write "short-hold" if that is meant' in result.output
    assert "week 1" not in result.output


def test_weeks_that_are_over_are_told(project: Path) -> None:
    with pytest.raises(BuilderError, match="no class day"):
        run(project, "--on", "2027-02-01")
