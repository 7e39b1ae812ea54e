"""`tempoleaf class` as coaches run it."""

from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

FILES = {
    "program/people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,\n",
    "program/attendance.csv": (
        "date,person,lesson,outcome\n"
        "2026-09-07,R1,hand-on-belly,ready\n2026-09-09,R1,hand-on-belly,ready\n"
    ),
    "program/classes/2026-09-22-early.yml": "people: [R1, P2]\nminutes: 45\n",
}
FILE = "classes/2026-09-22-early.yml"
PLAN = "program/plans/2026-09-22-early.yml"


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course(FILES)


def run(project: Path, *words: str) -> Result:
    command = ["class", FILE, *words, "--project", str(project)]
    result = CliRunner().invoke(make_app(["class"]), command)
    if isinstance(result.exception, BuilderError):
        raise result.exception
    return result


def test_rows_that_count_for_nobody_are_told_in_the_plan(project: Path) -> None:
    with (project / "program/attendance.csv").open("a", encoding="utf-8") as file:
        file.write("2026-09-10,R1,Hand-On-Belly,easier\n")
    result = run(project)
    assert result.exit_code == 1
    assert "program/attendance.csv:4:3: K105" in result.stderr
    assert "1 fault in the records keeps rows out of this plan: mend it first." in result.stdout


def test_a_plan_that_cant_be_read_is_planned_anew_when_asked(project: Path) -> None:
    run(project)
    plan = project / PLAN
    mine = plan.read_text(encoding="utf-8").replace("hand-on-belly", "hand-on-bely")
    plan.write_text(mine, encoding="utf-8")
    assert run(project).exit_code == 1
    assert run(project, "--anew").exit_code == 0
    kept = list((project / "program/plans/earlier").iterdir())
    assert [path.read_text(encoding="utf-8") for path in kept] == [mine]


def test_a_count_that_nobody_keeps_is_not_called_out(project: Path) -> None:
    run(project)
    plan = project / PLAN
    mine = plan.read_text(encoding="utf-8").replace("count: own pace", "count: 4-19-4-19")
    plan.write_text(mine, encoding="utf-8")
    result = run(project)
    assert "count: 4-19-4-19" in mine
    assert "4-19-4-19" not in result.stdout
    assert "own pace" in result.stdout
