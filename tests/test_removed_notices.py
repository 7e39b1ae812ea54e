"""Whatever takes a notice away, a check or a build fails: files, lines, parts of templates."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from builder.checked.course import find_all, read_kept_course
from builder.findings import stops_publishing
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, make_once
from tests.parts import renew_parts

ROOT = Path(__file__).parents[1]
NOTICES = sorted(p.stem for p in (ROOT / "content/notices").glob("*.md") if "." not in p.stem)
ADAPTING = re.compile("^action: adapt$", re.M)


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a copy of the starter course; each test puts back what it takes out."""
    project = tmp_path_factory.mktemp("starter")
    shutil.copytree(ROOT / "content", project / "content")
    assert not find_errors(project)
    return project


def find_errors(project: Path) -> list[str]:
    found = find_all(read_kept_course(project), project).findings
    return [str(finding) for finding in found if stops_publishing(finding, strict=False)]


@contextmanager
def changed(path: Path, text: str | None) -> Iterator[None]:
    before = path.read_text("utf-8")
    if text is None:
        path.unlink()
    else:
        path.write_text(text, "utf-8")
    yield
    path.write_text(before, "utf-8")


def test_the_starter_course_has_the_notices_that_are_tried() -> None:
    assert len(NOTICES) > 20


@pytest.mark.parametrize("name", NOTICES)
def test_a_notice_whose_file_is_gone_fails_the_check(starter: Path, name: str) -> None:
    for ending, rule in ((".es.md", "G102"), (".md", "N112")):
        with changed(starter / f"content/notices/{name}{ending}", None):
            assert any(f" {rule} " in told for told in find_errors(starter)), ending


@pytest.mark.parametrize("name", NOTICES)
def test_a_notice_without_one_of_its_lines_fails_the_check(starter: Path, name: str) -> None:
    """A note that asks for nothing needs no "adapt"; the page says it without one."""
    for ending in (".md", ".es.md"):
        path = starter / f"content/notices/{name}{ending}"
        text = path.read_text("utf-8")
        keys = ("title", "short", *(("adapt",) if ADAPTING.search(text) else ()))
        for key in keys:
            less, count = re.subn(f"^{key}: .*\n", "", text, count=1, flags=re.M)
            assert count == 1
            with changed(path, less):
                told = [line for line in find_errors(starter) if path.name in line]
                assert told, f"{key} of {path.name}"


TEMPLATES = {
    "page, notices": (
        "pages/lesson.md",
        r'<ul class="tl-notices">.*?</ul>',
        "E101",
    ),
    "page, words of a notice": ("pages/lesson.md", r"\{\{ notice\.short \}\}", "E101"),
    "page, caution": ("pages/lesson.md", r'<p class="tl-caution">.*?</p>', "E101"),
    "chapter, words of a notice": ("epub/lesson.xhtml", r"\{\{ notice\.short \}\}", "C105"),
    "chapter, caution": ("epub/lesson.xhtml", r'<p class="caution">.*?</p>', "C105"),
    "card, groups": (
        "cards/card.html.j2",
        r"\{% for group in card\.notices %\}.*?\n\{% endfor %\}",
        "C105",
    ),
    "card, words of a notice": ("cards/card.html.j2", r"<p>\{\{ notice\.short \}\}</p>", "C105"),
    "card, caution": (
        "cards/card.html.j2",
        r'<p class="caution">\{\{ lesson\.caution \}\}</p>',
        "C105",
    ),
    "safety page, notices": ("pages/notice.md", r"\{\{ notice\.short \}\}", "C105"),
    "safety page, whole text": ("pages/notice.md", r"\{\{ long \}\}", "C105"),
    "style, notices hidden": (
        "assets/site.css",
        r"\Z",
        "E101",
        "\n.tl-notice { opacity: 0 !important }",
    ),
    "style, notices pale": (
        "assets/site.css",
        r"\Z",
        "E101",
        "\n.tl-notice { color: #bbb !important }",
    ),
    "style, notices small": (
        "assets/site.css",
        r"\Z",
        "E101",
        "\n.tl-notice { font-size: 4px !important }",
    ),
    "card style, notices hidden": (
        "cards/card.css",
        r"\Z",
        "E101|A105",
        "\n.safety { visibility: hidden }",
    ),
    "card style, caution pale": ("cards/card.css", r"\Z", "E101", "\n.caution { color: #ddd }"),
}


@pytest.mark.parametrize("change", TEMPLATES.values(), ids=TEMPLATES)
def test_a_template_that_loses_a_notice_stops_the_build(
    shelf: Path, tmp_path: Path, change: tuple[str, ...]
) -> None:
    """Build with a copy of the tool that has one template less of a part."""
    file, pattern, rule, *more = change
    tool = shutil.copytree(make_once(shelf, "tool", copy_tool), tmp_path / "tool")
    path = tool / "site_templates" / file
    text, count = re.subn(pattern, more[0] if more else "", path.read_text("utf-8"), flags=re.S)
    assert count
    path.write_text(text, "utf-8")
    renew_parts(tool / "site_templates")  # else the tool refuses to make anything at all
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, "utf-8")
    done = subprocess.run(
        [sys.executable, "-c", "from builder.cli.app import main; main()", "build", "-q"],
        cwd=project,
        env={**os.environ, "PYTHONPATH": str(tool), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1, done.stdout + done.stderr
    assert re.search(f" ({rule}) ", done.stdout), done.stdout
    assert not (project / "site").exists()


def copy_tool(folder: Path) -> None:
    for name in ("builder", "site_templates"):
        ignored = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / name, folder / name, ignore=ignored)
    shutil.copytree(ROOT / "content", folder / "content")
