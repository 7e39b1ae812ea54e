"""What goes wrong around a build is told in a line, and the old site stands."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from builder.work.whole import mark_folder
from tests.conftest import WriteCourse
from tests.running import Done, run_tool

NO_CARDS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
HOOKED = f"{NO_CARDS}hooks: [hook.py]\n"
LESSON = "content/lessons/count/short-hold.md"
WRITES = f"""
from pathlib import Path

def on_env(env, config, files):
    lesson = Path(config.docs_dir).parent / "{LESSON}"
    lesson.write_text(lesson.read_text().replace("Go back to", "Turn back to"))
"""
WAITS = """
import time
from pathlib import Path

def on_config(config):
    Path(config.config_file_path).with_name("begun").touch()
    time.sleep(60)
"""


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    """Give a course with an old site, and a hook that the host calls in the midst of a build."""
    root = write_course({"mkdocs.yml": HOOKED})
    (root / "site").mkdir()
    mark_folder(root / "site")
    (root / "site" / "old.html").write_text("old", encoding="utf-8")
    return root


def build(project: Path, *options: str) -> Done:
    return run_tool("build", "--quiet", *options, folder=project)


def list_left(project: Path) -> list[str]:
    return sorted(path.name for path in project.iterdir() if path.name.startswith("."))


def test_a_lesson_saved_during_a_build_stops_it_and_the_next_has_its_words(project: Path) -> None:
    (project / "hook.py").write_text(WRITES, encoding="utf-8")
    done = build(project)
    assert done.returncode == 2
    assert f'cannot go on: "{LESSON}" was changed during the run' in done.stderr
    assert done.stderr.endswith("run this again.\n")
    assert (project / "site" / "old.html").read_text() == "old"
    assert list_left(project) == [".cache"]
    (project / "mkdocs.yml").write_text(NO_CARDS, encoding="utf-8")
    assert build(project).returncode == 0
    page = project / "site/lessons/count/short-hold/index.html"
    assert "Turn back to" in page.read_text(encoding="utf-8")


def test_a_course_that_goes_during_a_build_is_told_without_a_traceback(project: Path) -> None:
    goes = WRITES.partition("    lesson")[0]
    goes += "    import shutil; shutil.rmtree(config.docs_dir)\n"
    (project / "hook.py").write_text(goes, encoding="utf-8")
    done = build(project)
    assert done.returncode == 2
    assert done.stderr.startswith("cannot go on: ")
    assert "Traceback" not in done.stderr
    assert (project / "site" / "old.html").read_text() == "old"


@pytest.mark.skipif(sys.platform == "win32", reason="Windows knows no such signals")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_build_that_is_told_to_end_ends_without_a_word(project: Path, number: int) -> None:
    (project / "hook.py").write_text(WAITS, encoding="utf-8")
    running = subprocess.Popen(
        [sys.executable, "-c", "from builder.cli.app import main; main()", "build", "--quiet"],
        cwd=project,
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[2])},
        stderr=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        text=True,
        start_new_session=True,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509  # a job of a shell has none
    )
    while running.poll() is None and not (project / "begun").exists():
        pass
    os.killpg(running.pid, number)
    _, said = running.communicate(timeout=60)
    assert (running.returncode, said) == (128 + number, "")
    assert (project / "site" / "old.html").read_text() == "old"
    assert list_left(project) == [".cache"]
