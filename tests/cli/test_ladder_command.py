"""`tempoleaf ladder` as coaches run it."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

MAN = ("--height", "175", "--weight", "70", "--age", "30", "--lung-reference", "male")


def run(*words: str) -> str:
    result = CliRunner().invoke(make_app(["ladder"]), ["ladder", *words])
    if isinstance(result.exception, BuilderError):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course()


def test_rungs_lead_from_todays_breath_to_the_target(project: Path) -> None:
    text = run("4-1-6-1", "--easy", "10", *MAN, "--project", str(project))
    assert text.startswith("Ladder to 4-1-6-1 at 1.3 MET, for a body (male, 30 years")
    assert "  1  3-1-5-1         10 s\n" in text
    assert "  3  4-1-6-1         12 s  +9%\n" in text
    assert "Go back whenever you like" in text
    assert "Ratamess and others 2009" in text
    assert "licensed clinicians come first" in text
    assert "It ends before the target" not in text


def test_what_ends_a_ladder_early_is_said(project: Path) -> None:
    words = ("4-4-4-4", "--easy", "8", "--hold", "6", "--project", str(project))
    got = json.loads(run(*words, "--json"))
    assert got["reaches_target"] is False
    assert got["rungs"][-1]["cycle_seconds"] < 12.3
    assert any("half of the comfortable hold" in rule for rule in got["held_back_by"])
    assert (
        "It ends before the target, by a rule of ours: holds at home stay at or under half"
        in run(*words)
    )


def test_a_start_outside_the_range_is_refused(project: Path) -> None:
    with pytest.raises(BuilderError, match="easy breath 4 s is outside 5 to 60 s"):
        run("4-1-4-1", "--easy", "4", *MAN, "--project", str(project))
