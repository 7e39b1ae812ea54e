"""The tool's own digest: any byte of any file of it makes another."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from builder.resources import find_templates
from builder.work.tool_state import describe_tool_here, digest_files

ROOT = Path(__file__).parents[2]


def test_every_change_of_a_file_its_name_or_its_place_is_another_digest(tmp_path):
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "one.css").write_text("body {}")
    seen = {digest_files(tmp_path)}
    (tmp_path / "a" / "one.css").write_text("body { }")
    seen.add(digest_files(tmp_path))
    (tmp_path / "a" / "one.css").rename(tmp_path / "a" / "two.css")
    seen.add(digest_files(tmp_path))
    (tmp_path / "a" / "two.css").rename(tmp_path / "two.css")
    seen.add(digest_files(tmp_path))
    (tmp_path / "empty.txt").write_text("")
    seen.add(digest_files(tmp_path))
    assert len(seen) == 5


def test_what_python_makes_of_files_doesnt_count(tmp_path):
    (tmp_path / "one.py").write_text("x = 1")
    before = digest_files(tmp_path)
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "__pycache__" / "one.pyc").write_bytes(b"x")
    assert digest_files(tmp_path) == before


def test_the_digest_holds_code_and_templates():
    assert digest_files(find_templates()) != digest_files()
    assert len(describe_tool_here()) == 64


@pytest.mark.parametrize(
    "name",
    [
        "builder/drawing/figure/pair.py",
        "builder/publishing/proof/read_back.py",
        "builder/rules/pages/O102.md",
        "site_templates/cards/card.css",
        "site_templates/words/es.po",
        "site_templates/fonts/SourceSans3-Bold.ttf",
    ],
)
def test_a_byte_more_in_any_part_of_the_tool_is_another_tool(name, copied_tool):
    before = describe_copy(copied_tool)
    with (copied_tool / name).open("ab") as file:
        file.write(b"\n")
    assert describe_copy(copied_tool) != before


@pytest.fixture(scope="module")
def copied_tool(tmp_path_factory):
    """Give a copy of the tool's own files."""
    folder = tmp_path_factory.mktemp("tool")
    left_out = shutil.ignore_patterns("__pycache__")
    for name in ("builder", "site_templates"):
        shutil.copytree(ROOT / name, folder / name, ignore=left_out)
    return folder


def describe_copy(folder):
    asked = "from builder.work.tool_state import describe_tool_here; print(describe_tool_here())"
    done = subprocess.run(
        [sys.executable, "-c", asked],
        env={**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"},
        cwd=folder,
        check=True,
        capture_output=True,
        text=True,
    )
    return done.stdout
