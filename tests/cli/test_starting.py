"""How little is loaded where little is asked for."""

import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from builder.cli.app import WORDS, make_app, make_app_for
from tests.conftest import copy_small_course
from tests.running import run_tool

ROOT = Path(__file__).parents[2]
HEAVY = {
    *("weasyprint", "mkdocs", "numpy", "highspy", "pikepdf", "babel", "yaml"),
    *("jinja2", "filelock", "openpyxl", "soundfile", "PIL"),
}
"""Pydantic isn't among them: Typer itself loads it to read a command's arguments."""
TELL_LOADED = """
import atexit, sys
atexit.register(lambda: print("loaded", *{name.split(".")[0] for name in sys.modules}))
from builder.cli.app import main
main()
"""


def list_loaded(*words: str | Path) -> set[str]:
    """Return what a process of the tool has loaded when it ends."""
    done = subprocess.run(
        [sys.executable, "-c", TELL_LOADED, *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    return set(done.stdout.split("loaded ")[1].split())


@pytest.mark.parametrize("words", [["--version"], ["--help"], ["-h"], [], ["unknown"]])
def test_what_asks_for_no_command_loads_no_engine(words):
    assert not list_loaded(*words) & HEAVY


def test_a_check_of_what_was_checked_loads_nothing_to_read_with(tmp_path):
    project = copy_small_course(tmp_path)
    assert list_loaded("check", project) & HEAVY == {"yaml", "babel"}
    assert not list_loaded("check", project) & HEAVY


@pytest.mark.parametrize("form", ["text", "json", "sarif", "github"])
@pytest.mark.parametrize("strict", [[], ["--strict"]])
def test_a_check_says_the_same_again_and_ends_alike(tmp_path, form, strict):
    project = copy_small_course(tmp_path, "2020-10-01")
    (project / "content" / "lessons" / "notes.txt").write_text("Who reads this?")
    first = run_tool("check", project, "--format", form, *strict)
    assert first.returncode == 1
    assert run_tool("check", project, "--format", form, *strict) == first


@pytest.mark.parametrize("words", [["--help"], ["nothing"], ["--version", "check"]])
def test_commands_that_arent_loaded_are_told_as_those_that_are(words):
    light, full = (
        CliRunner().invoke(app, words, prog_name="tempoleaf")
        for app in (make_app_for(words), make_app(WORDS))
    )
    assert (light.output, light.exit_code) == (full.output, full.exit_code)


def test_a_command_after_two_hyphens_is_loaded():
    assert CliRunner().invoke(make_app_for(["--", "check"]), ["--", "check", "--help"]).output
