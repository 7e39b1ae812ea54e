"""Several commands in one project at once: each ends well, and what stands is whole."""

import os
import subprocess
import sys
from pathlib import Path

from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, lay_cards

COMMAND = (sys.executable, "-c", "from builder.cli.app import main; main()")


def start(project: Path, *words: str) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [*COMMAND, *words],
        cwd=project,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


def test_builds_and_cards_at_once_leave_a_proved_site_and_whole_cards(
    shelf: Path, tmp_path: Path
) -> None:
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    lay_cards(shelf, project)
    orders = (("build", "-q"), ("cards", "-q", "--packs"), ("build", "-q"), ("check",))
    running = [start(project, *words) for words in orders]
    ended = [(run.communicate(timeout=120)[0], run.returncode) for run in running]
    assert [code for _, code in ended] == [0, 0, 0, 0], ended
    proved = start(project, "prove", "site")
    assert (proved.communicate()[0].count("no findings"), proved.returncode) == (1, 0)
    cards = sorted(path.name for path in (project / "cards").glob("*.pdf"))
    assert len(cards) == 5
    assert all(path.read_bytes()[-6:].strip() == b"%%EOF" for path in project.rglob("*.pdf"))
    left = sorted(path.name for path in project.iterdir() if path.name.startswith("."))
    assert left == [".cache"]
