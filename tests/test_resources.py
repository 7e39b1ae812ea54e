"""The tool's own templates, styles and fonts: each whole, or nothing is made."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from builder.resources import PARTS, find_spoilt_part
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, make_once
from tests.parts import TEMPLATES, write_parts

ANEW = "run PYTHONPATH=. .venv/bin/python tests/parts.py"
PRINTED = ("cards", "class_card", "sheets", "group", "posters")
"""Folders of what is printed."""
FILES = sorted(p.relative_to(TEMPLATES).as_posix() for p in TEMPLATES.rglob("*") if p.is_file())
LINED = [name for name in FILES if name.startswith(PRINTED)]
FONTS = [name for name in FILES if name.endswith((".ttf", ".woff2"))]


def test_the_list_of_parts_is_of_these_parts() -> None:
    assert (TEMPLATES / PARTS).read_text(encoding="utf-8") == write_parts(TEMPLATES), ANEW
    assert find_spoilt_part(TEMPLATES) is None


@pytest.fixture(scope="module")
def templates(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a copy of the templates; each test puts back what it takes out."""
    return shutil.copytree(TEMPLATES, tmp_path_factory.mktemp("own") / "templates")


@pytest.mark.parametrize("name", LINED)
def test_no_line_of_anything_printed_can_be_taken_out(templates: Path, name: str) -> None:
    path = templates / name
    whole = path.read_bytes()
    lines = whole.splitlines(keepends=True)
    assert lines
    try:
        for number in range(len(lines)):
            path.write_bytes(b"".join((*lines[:number], *lines[number + 1 :])))
            assert find_spoilt_part(templates) == name, number + 1
    finally:
        path.write_bytes(whole)


@pytest.mark.parametrize("name", FONTS)
def test_no_font_can_be_taken_out_or_be_another(templates: Path, name: str) -> None:
    path = templates / name
    whole = path.read_bytes()
    try:
        path.write_bytes(whole[:-1] + bytes([whole[-1] ^ 1]))
        assert find_spoilt_part(templates) == name
        path.unlink()
        assert find_spoilt_part(templates) == name
    finally:
        path.write_bytes(whole)


def test_the_list_itself_cannot_be_taken_out(templates: Path) -> None:
    path = templates / PARTS
    whole = path.read_bytes()
    path.unlink()
    assert find_spoilt_part(templates) == PARTS
    path.write_bytes(whole)


def run_tool(tool: Path, project: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    script = (
        f"import sys; sys.path.insert(0, {str(tool)!r}); from builder.cli.app import main; main()"
    )
    command = [sys.executable, "-B", "-c", script, *words]
    return subprocess.run(command, cwd=project, check=False, capture_output=True, text=True)


@pytest.fixture
def tool(shelf: Path, tmp_path: Path) -> Path:
    """Give a copy of the whole tool."""

    def copy(folder: Path) -> None:
        for name in ("builder", "site_templates", "content"):
            ignored = shutil.ignore_patterns("__pycache__")
            shutil.copytree(TEMPLATES.parent / name, folder / name, ignore=ignored)

    return shutil.copytree(make_once(shelf, "whole-tool", copy), tmp_path / "tool")


@pytest.mark.parametrize(
    "spoil",
    [
        "cards/card.html.j2",
        "cards/card.css",
        "class_card/class_card.css",
        "fonts/SourceSans3-Bold.ttf",
        "fonts/TempoleafSans-Regular.woff2",
    ],
)
def test_a_build_with_a_spoilt_part_makes_nothing(tool: Path, tmp_path: Path, spoil: str) -> None:
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    path = tool / "site_templates" / spoil
    path.write_bytes(path.read_bytes()[:-1])
    done = run_tool(tool, project, "build")
    assert done.returncode == 2
    assert f'the tool\'s own "{spoil}" is not as it was released' in done.stderr
    assert "Traceback" not in done.stderr
    assert not (project / "site").exists()
