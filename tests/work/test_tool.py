"""The tool's own digest: any byte of any file of it makes another."""

import os
import shutil
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

from builder.resources import find_templates
from builder.work.tool import digest_files, digest_tool, list_installed, list_libraries
from tests.parts import renew_parts

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
    assert len(digest_tool()) == 64


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
    renew_parts(copied_tool / "site_templates")  # else the tool makes nothing at all
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
    asked = "from builder.work.tool import digest_tool; print(digest_tool())"
    done = subprocess.run(
        [sys.executable, "-c", asked],
        env={**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"},
        cwd=folder,
        check=True,
        capture_output=True,
        text=True,
    )
    return done.stdout


def write_library(place, name, *requirements, head="METADATA"):
    folder = place / f"{name}.dist-info"
    folder.mkdir()
    lines = ["Metadata-Version: 2.4", *(f"Requires-Dist: {each}" for each in requirements)]
    (folder / head).write_text("\n".join((*lines, "", "Requires-Dist: told-in-the-text", "")))


def test_whatever_a_package_stands_on_counts_down_to_the_last_and_nothing_else(
    tmp_path, monkeypatch
):
    monkeypatch.setattr(sys, "path", [str(tmp_path), str(tmp_path / "none.zip")])
    write_library(tmp_path, "ours-1", "Press_Engine[fast] >=2; python_version>'3'", "absent")
    with (tmp_path / "ours-1.dist-info" / "METADATA").open("r+") as file:
        file.write("Requires-Dist: tester; extra == 'test'\n" + file.read())
    write_library(tmp_path, "press_engine-2.5", "ink", "squeeze (>=1) ; extra == 'fast'")
    write_library(tmp_path, "ink-3", "press-engine")
    for name in ("squeeze-4", "tester-5", "told_in_the_text-6"):
        write_library(tmp_path, name)
    assert list_libraries("ours") == ("ink 3", "press-engine 2.5", "squeeze 4")
    assert "tester 5" in list_installed()
    assert list_libraries("not-there") == list_installed()


def test_what_lays_out_writes_and_cuts_fonts_is_among_what_the_tool_stands_on():
    names = {each.split()[0] for each in list_libraries()}
    assert {"weasyprint", "pydyf", "fonttools", "tinycss2", "markdown", "mkdocs"} <= names
    assert names.isdisjoint({"pip", "pytest", "mypy", "tempoleaf"})
    assert f"fonttools {version('fonttools')}" in list_libraries()
