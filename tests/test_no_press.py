"""A machine that lacks what PDFs are made with: told with its cure, and the old site stands.

A file that is no library, under a library's name and where the system looks first, stands for one
that is missing: nothing can load it.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from builder.work.whole import mark_folder
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="names and places of libraries")


@pytest.fixture
def project(tmp_path: Path) -> Path:
    root = copy_small_course(tmp_path / "project")
    (root / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    for name in ("site", "cards"):
        (root / name).mkdir()
        mark_folder(root / name)
        (root / name / "old.txt").write_text("old", encoding="utf-8")
    return root


def run_without(library: str, project: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    folder = project.with_name("libraries")
    folder.mkdir()
    (folder / library).touch()
    return subprocess.run(
        [sys.executable, "-c", "from builder.cli.app import main; main()", *words, "--quiet"],
        cwd=project,
        env={
            **os.environ,
            "LD_LIBRARY_PATH": str(folder),
            "PYTHONPATH": str(Path(__file__).parents[1]),
        },
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.parametrize(
    ("library", "words"),
    [
        ("libpango-1.0.so.0", ("build",)),
        ("libpango-1.0.so.0", ("cards",)),
        ("libpangoft2-1.0.so.0", ("build",)),
        ("libfontconfig.so.1", ("cards",)),
    ],
)
def test_without_the_library_that_sets_text_nothing_is_made(
    project: Path, library: str, words: tuple[str, ...]
) -> None:
    done = run_without(library, project, *words)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False), done.stderr
    assert "a system library of the PDF engine is missing" in done.stderr
    assert "tempoleaf doctor" in done.stderr
    for name in ("site", "cards"):
        assert sorted(path.name for path in (project / name).iterdir()) == [".tempoleaf", "old.txt"]
    assert [path.name for path in project.glob(".*")] == [".cache"]


def test_without_the_library_that_cuts_typefaces_cards_are_sound_and_it_is_told(
    project: Path,
) -> None:
    """Costs the print of one card in a process of its own, by the slower library."""
    done = run_without("libharfbuzz-subset.so.0", project, "cards", "short-hold", "--paper", "a6")
    assert done.returncode == 0, done.stderr
    assert done.stderr.startswith("note: HarfBuzz's subsetter can't be loaded")
    assert "tempoleaf doctor" in done.stderr
    assert [path.name for path in (project / "cards").rglob("*.pdf")] == ["short-hold.pdf"]
