"""A preview shows an edited lesson before all the rest is built, and shows it as a build does."""

import shutil
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer

from tests.conftest import copy_small_course

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
HOLD = Path("lessons", "count", "short-hold.md")
PAGE = Path("lessons", "count", "short-hold", "index.html")


class Preview:
    """The host's preview without its network: what it does at a change, and what it shows."""

    def __init__(self, project: Path) -> None:
        self.project, self.site = project, project / "shown"
        (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
        self.whole_builds = 0
        config = self._load()
        self._build(config)
        server = LiveReloadServer(self.build_all, "127.0.0.1", 0, str(self.site))
        self.server = config.plugins.on_serve(server, config=config, builder=self.build_all)

    def build_all(self) -> None:
        self.whole_builds += 1
        self._build(self._load())

    def notice(self) -> str:
        """Have the host notice a change; return what the page shows then."""
        self.server.builder()
        return self.read()

    def read(self) -> str:
        return (self.site / PAGE).read_text(encoding="utf-8")

    def edit(self, old: str, new: str, path: Path = HOLD) -> None:
        file = self.project / "content" / path
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")

    def _load(self) -> MkDocsConfig:
        config = load_config(str(self.project / "mkdocs.yml"), site_dir=str(self.site))
        config.plugins.on_startup(command="serve", dirty=False)
        return config

    def _build(self, config: MkDocsConfig) -> None:
        build(config, serve_url="http://127.0.0.1:8000/")


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Preview]:
    shown = Preview(copy_small_course(tmp_path / "project"))
    yield shown
    shown.server.server_close()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("1. Breathe in for three", "1. Breathe in softly for three"),
        ("dose: {sets: 2, breaths: 5, rest: 40}", "dose: {sets: 1, breaths: 4}"),
        ("stop_if: [You feel dizzy]", "stop_if: [You feel dizzy, Your hands tingle]"),
        ("summary: Add a hold", "summary: Put a hold"),
        ('- Say "soft throat"', "- Say nothing"),
        ("Go back to [[plain-count]]", "Go back to [[long-out]]"),
    ],
)
def test_an_edited_lesson_is_shown_as_a_whole_build_shows_it(
    preview: Preview, old: str, new: str
) -> None:
    before = preview.read()
    preview.edit(old, new)
    shown = preview.notice()
    assert preview.whole_builds == 0
    assert shown != before
    assert preview.notice() == shown  # nothing has changed since: now all is built
    assert preview.whole_builds == 1


def test_a_caution_that_an_edit_calls_for_is_there_at_once(preview: Preview) -> None:
    page = preview.site / "lessons/count/long-out/index.html"
    before = page.read_text(encoding="utf-8")
    preview.edit("tempo: 4-1-6-1", "tempo: 3-3-3-3", Path("lessons", "count", "long-out.md"))
    preview.notice()
    notice = (preview.project / "content/notices/holding.md").read_text(encoding="utf-8")
    (short,) = (row for row in notice.split("\n") if row.startswith("short: "))
    caution = short.removeprefix("short: ").strip('"')
    assert caution not in before
    assert caution in page.read_text(encoding="utf-8")
    assert preview.whole_builds == 0


def test_edits_of_two_lessons_in_turn_both_stand(preview: Preview) -> None:
    preview.edit("Breathe in for three", "Breathe in softly")
    preview.notice()
    preview.edit("1. ", "1. Then ", Path("lessons", "count", "plain-count.md"))
    assert "Breathe in softly" in preview.notice()
    other = (preview.site / "lessons/count/plain-count/index.html").read_text(encoding="utf-8")
    assert "Then " in other
    assert preview.whole_builds == 0


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ("tempo: 3-3-3-3", "tempo: 3-3", HOLD),
        ("[[plain-count]]", "[[nowhere]]", HOLD),
        ("short: ", "short: Now ", Path("notices", "holding.md")),
        ("title: A small course", "title: A little course", Path("course.yml")),
    ],
)
def test_what_more_than_a_page_hangs_on_is_built_whole(
    preview: Preview, old: str, new: str, path: Path
) -> None:
    preview.edit(old, new, path)
    preview.notice()
    assert preview.whole_builds == 1


def test_new_and_lost_files_are_built_whole(preview: Preview) -> None:
    file = preview.project / "content" / "more.md"
    file.write_text("# More\n", encoding="utf-8")
    preview.notice()
    file.unlink()
    preview.notice()
    assert preview.whole_builds == 2


def test_everything_else_follows_when_nothing_is_edited_for_a_while(preview: Preview) -> None:
    preview.edit("title: Short hold", "title: Small hold")
    preview.notice()
    host = threading.Thread(target=preview.server.serve)
    host.start()
    try:
        assert wait_for(lambda: "Small hold" in read_if_there(preview.site / "map/index.html"))
    finally:
        preview.server.shutdown()
        host.join()


def read_if_there(path: Path) -> str:
    """Read a page that a build may just have taken away."""
    try:
        return path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return ""


def wait_for(is_so: Callable[[], bool]) -> bool:
    """Wait for half a minute at most until something is so."""
    end = time.monotonic() + 30
    while time.monotonic() < end and not is_so():
        time.sleep(0.1)
    return is_so()


def test_a_cache_that_is_removed_meanwhile_has_all_built_at_once(preview: Preview) -> None:
    shutil.rmtree(preview.project / ".cache")
    preview.edit("Breathe in for three", "Breathe in softly")
    assert "Breathe in softly" in preview.notice()
    assert preview.whole_builds == 1


def test_a_file_in_the_place_of_the_cache_stops_no_preview(tmp_path: Path) -> None:
    project = copy_small_course(tmp_path / "project")
    (project / ".cache").write_text("mine", encoding="utf-8")
    preview = Preview(project)
    preview.edit("Breathe in for three", "Breathe in softly")
    assert "Breathe in softly" in preview.notice()
    assert (project / ".cache").read_text(encoding="utf-8") == "mine"
    preview.server.server_close()
