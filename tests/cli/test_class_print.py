"""`tempoleaf class --print` as people run it, on a copy of the demo program."""

import shutil
from pathlib import Path

import pypdf
import pytest

from tests.running import Done, run_tool

ROOT = Path(__file__).parents[2]
SMALL = "2026-11-26-small"


def run(project: Path, *words: str) -> Done:
    given = ("--project", project, "--program", project / "demo_program")
    return run_tool("class", f"classes/{SMALL}.yml", *words, *given)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "content", tmp_path / "content")
    shutil.copytree(ROOT / "demo_program", tmp_path / "demo_program")
    return tmp_path


def test_card_and_screen_lie_in_the_coachs_own_folder(project: Path) -> None:
    done = run(project, "--print")
    card = project / "coach" / "classes" / SMALL / "card.pdf"
    assert done.returncode == 0, done.stderr
    screen = card.with_name("screen.html")
    assert done.stdout.endswith(f"For the coach alone: {card}, {screen}, read back and complete.\n")
    assert screen.read_text("utf-8").startswith("<!DOCTYPE html>")
    assert len(pypdf.PdfReader(card).pages) in (1, 2)
    again = run(project, "--print")
    assert again.returncode == 0, again.stderr


def test_without_the_option_nothing_is_written_for_the_coach(project: Path) -> None:
    assert run(project).returncode == 0
    assert not (project / "coach").exists()


def test_a_plan_that_breaks_a_rule_gets_no_card_and_the_old_one_stands(project: Path) -> None:
    run(project, "--print")
    card = project / "coach" / "classes" / SMALL / "card.pdf"
    before = card.read_bytes()
    plan = project / "demo_program" / "plans" / f"{SMALL}.yml"
    lines = plan.read_text(encoding="utf-8")
    assert "look: true" in lines
    plan.write_text(lines.replace(", look: true", ""), encoding="utf-8")
    done = run(project, "--print")
    assert done.returncode == 1
    assert "This plan can't be taught as it stands" in done.stdout
    assert card.read_bytes() == before


def test_a_faulty_studio_file_is_told_and_nothing_is_written(project: Path) -> None:
    (project / "demo_program" / "studio.yml").write_text("paper: a7\n", encoding="utf-8")
    done = run(project, "--print")
    assert done.returncode == 1
    assert "studio.yml" in done.stderr
    assert not (project / "coach").exists()
