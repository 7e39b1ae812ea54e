"""What goes wrong around a build is told in a line, and the old site stands."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from builder.work.whole import mark_folder
from tests.conftest import WriteCourse, copy_small_course
from tests.made_once import NO_CARDS, build_without_cards
from tests.running import Done, run_tool
from tests.test_kept_pages import read_site

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


def run_alone(project: Path, **variables: str) -> "subprocess.CompletedProcess[str]":
    """Build in a process of its own, for what is looked at once when one starts."""
    return subprocess.run(
        [sys.executable, "-c", "from builder.cli.app import main; main()", "build", "--quiet"],
        cwd=project,
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[2]), **variables},
        capture_output=True,
        text=True,
        check=False,
    )


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


MINE = "the coach's own"
CIRCLE = "link in a circle"


def put(kind: str, path: Path, elsewhere: Path) -> None:
    """Put what is no folder into the place of one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    elsewhere.mkdir()
    (elsewhere / "mine.txt").write_text(MINE, encoding="utf-8")
    match kind:
        case "file":
            path.write_text(MINE, encoding="utf-8")
        case "link to a folder":
            path.symlink_to(elsewhere)
        case "link to nothing":
            path.symlink_to(elsewhere / "nothing")
        case _:
            path.symlink_to(path.name)


BUILD, CARDS = ("build", "--quiet"), ("cards", "--quiet")
CASES = [
    *(("site", BUILD, kind) for kind in ("file", "link to a folder", "link to nothing", CIRCLE)),
    ("plain", (*BUILD, "--plain", "plain"), CIRCLE),
    ("cards", CARDS, "file"),
    ("cards", CARDS, "link to a folder"),
    ("coach", (*CARDS, "--coach"), "file"),
    ("coach", (*CARDS, "--coach"), CIRCLE),
    ("studio", ("new", "studio"), "file"),
    ("studio", ("new", "studio"), CIRCLE),
    ("content", ("check",), "file"),
    ("content", ("check",), CIRCLE),
    ("content", BUILD, CIRCLE),
]


@pytest.mark.parametrize(("place", "words", "kind"), CASES)
def test_what_is_no_folder_in_the_place_of_one_is_told_and_stays(
    tmp_path: Path, place: str, words: tuple[str, ...], kind: str
) -> None:
    project = tmp_path / "project"
    if place != "content":
        copy_small_course(project)
        (project / "mkdocs.yml").write_text(NO_CARDS, encoding="utf-8")
    path, elsewhere = project / place, tmp_path / "elsewhere"
    put(kind, path, elsewhere)
    done = run_tool(*words, folder=project)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False), done.stdout
    assert kind == "file" or path.is_symlink()
    assert done.stderr.startswith("cannot go on: ")
    assert place in done.stderr
    assert kind != "file" or path.read_text(encoding="utf-8") == MINE
    assert [file.name for file in elsewhere.iterdir()] == ["mine.txt"]
    assert set(list_left(project)) <= {".cache"}


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        (".cache", "file"),
        (".cache", CIRCLE),
        (".cache/pages", "file"),
        (".cache/check", "file"),
        (".cache/site", "file"),
    ],
)
def test_what_is_no_folder_in_the_place_of_the_cache_changes_no_page(
    shelf: Path, tmp_path: Path, place: str, kind: str
) -> None:
    whole = build_without_cards(shelf)
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(NO_CARDS, encoding="utf-8")
    if place != ".cache":
        shutil.copytree(whole / ".cache", project / ".cache")
    shutil.rmtree(project / place, ignore_errors=True)
    put(kind, project / place, tmp_path / "elsewhere")
    assert build(project).returncode == 0
    assert read_site(project / "site") == read_site(whole / "site")
    assert list_left(project) == [".cache"]
    assert (tmp_path / "elsewhere/mine.txt").read_text(encoding="utf-8") == MINE


@pytest.mark.parametrize("kind", ["missing", "file"])
def test_a_folder_for_temporary_files_that_is_none_is_done_without(
    project: Path, tmp_path: Path, kind: str
) -> None:
    (project / "mkdocs.yml").write_text(NO_CARDS, encoding="utf-8")
    scratch = tmp_path / "scratch"
    if kind == "file":
        scratch.write_text(MINE, encoding="utf-8")
    done = run_alone(project, TMPDIR=str(scratch))
    assert (done.returncode, done.stderr) == (0, "")
    assert kind == "missing" or scratch.read_text(encoding="utf-8") == MINE
