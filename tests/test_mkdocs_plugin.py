"""The plugin in its host: whole builds by the host's own command, and previews."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig

from builder.errors import BuilderError
from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import CoursePlugin, build_site
from tests.conftest import SMALL_COURSE, WriteCourse, copy_small_course
from tests.running import Done, run_host
from tests.spanish import speak_spanish

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
HOLD = "content/lessons/count/short-hold.md"
WriteProject = Callable[..., Path]


@pytest.fixture
def write_project(write_course: WriteCourse) -> WriteProject:
    def write(settings: str = SETTINGS, **files: str | None) -> Path:
        return write_course({"mkdocs.yml": settings, **files})

    return write


def change(path: str, old: str, new: str) -> dict[str, str]:
    """Return a file of the small course with one text in it replaced."""
    text = (SMALL_COURSE / path).read_text(encoding="utf-8")
    assert old in text
    return {path: text.replace(old, new)}


def build_by_host(project: Path, *options: str) -> Done:
    return run_host("build", *options, folder=project)


def start_host(project: Path) -> subprocess.CompletedProcess[str]:
    """Build as people do, in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=project,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the small course's site strictly, without cards; it stays as it is."""
    project = copy_small_course(tmp_path_factory.mktemp("built"))
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    done = start_host(project)
    assert (done.returncode, done.stderr.count("WARNING")) == (0, 0), done.stderr
    return project


def read_site(site: Path) -> dict[str, bytes]:
    """Return every file of a site."""
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }


def test_a_strict_build_makes_the_whole_site(built: Path) -> None:
    made = read_site(built / "site")
    assert "lessons/count/short-hold/index.html" in made
    assert "authors/O102/index.html" in made
    assert "assets/tempoleaf/fonts/SourceSans3-Regular.woff2" in made
    assert [path for path in made if path.startswith("notices") or path.endswith(".yml")] == []
    assert b"Say &quot;soft throat&quot;" not in b"".join(
        text for path, text in made.items() if not path.startswith("authors")
    )


def test_every_page_says_what_it_may_load_unless_the_settings_forbid_it(
    built: Path, write_project: WriteProject
) -> None:
    pages = [text for path, text in read_site(built / "site").items() if path.endswith(".html")]
    assert all(b'http-equiv="Content-Security-Policy"' in text for text in pages)
    project = write_project(SETTINGS.replace("cards: false", "cards: false, policy: false"))
    assert build_by_host(project, "--strict").returncode == 0
    pages = [text for path, text in read_site(project / "site").items() if path.endswith(".html")]
    with_policy = [text for text in pages if b"Content-Security-Policy" in text]
    assert [b"Proof of safety</h1>" in text for text in with_policy] == [True]  # no host made it


def test_pages_of_the_site_are_files_where_a_host_wants_that(write_project: WriteProject) -> None:
    project = write_project(f"{SETTINGS}use_directory_urls: false\n")
    done = build_by_host(project, "--strict")
    assert done.returncode == 0, done.stderr
    assert (project / "site/lessons/count/short-hold.html").is_file()


def test_a_faulty_tempo_stops_the_build_with_its_place_and_cure(
    write_project: WriteProject,
) -> None:
    project = write_project(**change(HOLD, "tempo: 3-3-3-3", "tempo: 3:3:3:3"))
    done = build_by_host(project, "--strict")
    assert done.returncode == 1
    assert f"{HOLD}:7:8: H107 tempo-malformed: " in done.stderr
    assert "Traceback" not in done.stderr


def test_all_findings_come_at_once_and_the_old_site_stands(built: Path, tmp_path: Path) -> None:
    project = shutil.copytree(built, tmp_path / "project")
    before = read_site(project / "site")
    faults = change(HOLD, "tempo: 3-3-3-3", "tempo: 3-3")
    faults |= change("content/lessons/count/long-out.md", "position: ", "positoin: ")
    for path, text in faults.items():
        (project / path).write_text(text, encoding="utf-8")
    done = build_by_host(project)
    assert done.returncode == 1
    assert "short-hold.md:7:8: H107" in done.stderr
    assert "H104 key-unknown" in done.stderr
    assert read_site(project / "site") == before


def test_a_warning_stops_a_strict_build_only(write_project: WriteProject) -> None:
    page = change("content/notices/floor.md", "on: 2026-10-01", "on: 2020-10-01")
    project = write_project(**page)
    assert build_by_host(project).returncode == 0
    done = build_by_host(project, "--strict")
    assert done.returncode == 1
    assert "N103 notice-past-review" in done.stderr


def test_a_site_that_lost_a_caution_is_not_left_behind(write_project: WriteProject) -> None:
    hook = 'def on_page_content(html, **_):\n    return html.replace("Small, quiet breaths.", "")\n'
    project = write_project(f"{SETTINGS}hooks: [hook.py]\n", **{"hook.py": hook})
    done = build_by_host(project)
    assert done.returncode == 1
    assert "C105 notice-missing" in done.stderr
    assert not list((project / "site").rglob("*.html"))


def test_a_link_to_nowhere_in_a_studios_page_is_a_finding(write_project: WriteProject) -> None:
    project = write_project(**{"content/extra.md": "# Extra\n\n[gone](lost.md)\n"})
    done = build_by_host(project)
    assert done.returncode == 1
    assert 'content/extra.md:3:6: L101 broken-link: "lost.md" leads to no page' in done.stderr


def test_a_link_out_of_the_course_is_a_finding_and_never_shown(
    write_project: WriteProject, tmp_path: Path
) -> None:
    project = write_project()
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    (project / "content/shown.txt").symlink_to(tmp_path / "secret.txt")
    done = build_by_host(project)
    assert done.returncode == 1
    assert "content/shown.txt:1:1: H116 text-unreadable: this link leads out" in done.stderr
    preview(project, tmp_path / "site")
    assert not (tmp_path / "site/shown.txt").exists()
    assert (tmp_path / "site/index.html").is_file()


def test_the_studios_own_files_go_along(write_project: WriteProject) -> None:
    project = write_project(**{"content/times.txt": "Monday"})
    assert build_by_host(project, "--strict").returncode == 0
    assert (project / "site/times.txt").read_text(encoding="utf-8") == "Monday"


def test_signs_of_html_in_titles_are_escaped_once(write_project: WriteProject) -> None:
    settings = SETTINGS.replace("A small course", "Small & 'good' \"course\"")
    project = write_project(settings, **change(HOLD, "title: Short hold", 'title: Hold & "rest"'))
    done = build_by_host(project, "--strict")
    assert done.returncode == 0, done.stderr
    text = (project / "site/lessons/count/long-out/index.html").read_text(encoding="utf-8")
    names: list[str] = []
    reader = HTMLParser()
    reader.handle_starttag = lambda _tag, attrs: names.extend(  # type: ignore[method-assign]
        value or "" for name, value in attrs if name in ("aria-label", "title")
    )
    reader.feed(text)
    assert 'Next: Hold & "rest"' in names
    assert "Small & 'good' \"course\"" in names
    assert not re.search(r"&amp;(amp|quot|lt|gt|#)", text)


def test_a_navigation_of_the_sites_own_is_kept(write_project: WriteProject) -> None:
    nav = "nav: [Begin: index.md, Count: lessons/count/plain-count.md]\n"
    project = write_project(SETTINGS + nav)
    done = build_by_host(project, "--strict")
    assert done.returncode == 0, done.stderr
    home = (project / "site/index.html").read_text(encoding="utf-8")
    assert "Begin" in home
    assert "Author guide" not in home


def test_a_navigation_out_of_order_stops_the_build(write_project: WriteProject) -> None:
    pages = "lessons/count/short-hold.md, lessons/count/plain-count.md"
    project = write_project(f"{SETTINGS}nav: [index.md, {pages}]\n")
    done = build_by_host(project)
    assert done.returncode == 1
    assert "O110 navigation-out-of-order" in done.stderr


def test_a_project_without_a_course_says_so(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "content/index.md").write_text("# Hello\n", encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    done = build_by_host(tmp_path)
    assert done.returncode == 1
    assert "there is no course here" in done.stderr
    assert "Traceback" not in done.stderr


def test_what_the_tool_says_inside_the_host_is_told_in_its_own_words(
    write_project: WriteProject,
) -> None:
    project = write_project(**{"content/course.yml": None})
    with pytest.raises(BuilderError) as caught:
        build_site(Order(project / "mkdocs.yml"), project / "site")
    assert caught.value.message.startswith("there is no course here")
    assert "make one with" in caught.value.cure


OWN_THEME = "{name: material, custom_dir: own}"
STRANGE = {
    "an open block": (OWN_THEME, {"own/main.html": "{% block x %}"}, "own/main.html:1: Template"),
    "no such part": (OWN_THEME, {"own/main.html": "{% include 'x' %}"}, "own/main.html:1: .*x"),
    "a number for a list": ("{name: material, features: 7}", {}, ".*: TypeError: 'int'"),
    "a hook": (
        "{name: material}\nhooks: [own.py]",
        {"own.py": "def on_nav(*_, **__):\n    raise KeyError('x')"},
        "own.py:2: KeyError: 'x'",
    ),
    "a hook that ends the run": (
        "{name: material}\nhooks: [own.py]",
        {"own.py": "def on_nav(*_, **__):\n    raise SystemExit"},
        "a theme, hook or plugin ended the run",
    ),
}


@pytest.mark.parametrize(("theme", "files", "told"), STRANGE.values(), ids=STRANGE)
def test_what_a_theme_or_hook_raises_is_told_with_its_place(
    write_project: WriteProject, theme: str, files: dict[str, str], told: str
) -> None:
    project = write_project(SETTINGS.replace("{name: material}", theme))
    for name, content in files.items():
        (project / name).parent.mkdir(exist_ok=True)
        (project / name).write_text(content, encoding="utf-8")
    with pytest.raises(BuilderError, match=f"^MkDocs stopped: {told}.*; mend what it names$"):
        build_site(Order(project / "mkdocs.yml"), project / "site")


def test_settings_without_the_plugin_are_refused(write_project: WriteProject) -> None:
    project = write_project("site_name: x\ndocs_dir: content\ntheme: {name: material}\n")
    with pytest.raises(BuilderError, match="doesn't use the plugin; add tempoleaf"):
        build_site(Order(project / "mkdocs.yml"), project / "site")


def preview(project: Path, site: Path) -> MkDocsConfig:
    """Build as the host's preview does."""
    config = load_config(str(project / "mkdocs.yml"), site_dir=str(site))
    config.plugins.on_startup(command="serve", dirty=False)
    build(config, serve_url="http://127.0.0.1:8000/")
    return config


def test_two_previews_in_a_row_are_the_same(write_project: WriteProject, tmp_path: Path) -> None:
    project = write_project(**change(HOLD, "tempo: 3-3-3-3", "tempo: 3-3"))
    preview(project, tmp_path / "first")
    preview(project, tmp_path / "first")
    preview(project, tmp_path / "second")
    assert read_site(tmp_path / "first") == read_site(tmp_path / "second")


def test_a_preview_shows_findings_instead_of_stopping(
    write_project: WriteProject, tmp_path: Path
) -> None:
    project = write_project(**change(HOLD, "tempo: 3-3-3-3", "tempo: 3-3"))
    preview(project, tmp_path / "site")
    page = (tmp_path / "site/lessons/count/short-hold/index.html").read_text(encoding="utf-8")
    assert "H107 tempo-malformed" in page
    assert "H107 tempo-malformed" in (tmp_path / "site/map/index.html").read_text(encoding="utf-8")


def test_a_preview_of_lessons_in_a_circle_still_works(
    write_project: WriteProject, tmp_path: Path
) -> None:
    path = "content/lessons/count/plain-count.md"
    text = (SMALL_COURSE / path).read_text(encoding="utf-8")
    line = next(row for row in text.split("\n") if row.startswith("builds_on:"))
    project = write_project(**{path: text.replace(line, "builds_on: [short-hold]")})
    preview(project, tmp_path / "site")
    assert "O102" in (tmp_path / "site/map/index.html").read_text(encoding="utf-8")


def test_a_preview_without_a_readable_course_file_says_why(
    write_project: WriteProject, tmp_path: Path
) -> None:
    project = write_project(**{"content/course.yml": "title: [broken\n"})
    preview(project, tmp_path / "site")
    home = (tmp_path / "site/index.html").read_text(encoding="utf-8")
    assert "content/course.yml" in home
    assert "H1" in home


def test_a_preview_offers_no_cards(write_project: WriteProject, tmp_path: Path) -> None:
    project = write_project(SETTINGS.replace(": {cards: false}", ""))
    preview(project, tmp_path / "site")
    assert b".pdf" not in (tmp_path / "site/lessons/count/short-hold/index.html").read_bytes()


def test_the_plugin_is_what_the_host_finds_under_its_name(write_project: WriteProject) -> None:
    config = load_config(str(write_project() / "mkdocs.yml"))
    assert isinstance(config.plugins["tempoleaf"], CoursePlugin)


def test_an_order_ends_with_its_build(tmp_path: Path) -> None:
    """The host gives the same plugin to the next build of a process."""
    project = speak_spanish(copy_small_course(tmp_path / "project"))
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    order = Order(project / "mkdocs.yml", is_for_disk=True, language="es")
    assert build_site(order, tmp_path / "es") == ()
    config = load_config(str(project / "mkdocs.yml"), site_dir=str(tmp_path / "whole"))
    config.plugins.on_startup(command="serve", dirty=False)
    build(config)
    home = (tmp_path / "whole" / "index.html").read_text(encoding="utf-8")
    assert '<html lang="en"' in home
