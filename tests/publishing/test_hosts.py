"""Other hosts than today's: each makes the course's site, whole and with every notice.

HOSTS.md tells people what is tested here. ProperDocs runs the plugin itself, unchanged; the plain
pages are for hosts that run no plugin of ours. Every host is started as its users start it.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.publishing.pages.links import lesson_page
from builder.publishing.proof.finished.faults import find_finished_faults
from builder.publishing.proof.finished.site import read_finished_site
from builder.publishing.proof.lesson_pages import list_lost_words
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.written_page import read_written_page
from builder.reading.addresses import Declared
from tests.conftest import copy_small_course
from tests.made_once import lay_cards, make_once
from tests.running import run_tool

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
_MAKER = re.compile(rb'content="mkdocs-[^"]*, mkdocs-material')
_MADE_OF_OTHERS = {"service-worker.js", "proof.json", "proof/index.html"}
"""Files that hold digests of pages, and each host writes its name into these."""
QUIET = os.environ | {"NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"}


def host(name: str, folder: Path) -> None:
    """Build the site of a folder with a host, as strict as it can be."""
    command = [sys.executable, "-m", name, "build", "--strict", "-f", "mkdocs.yml"]
    done = subprocess.run(
        command, check=False, cwd=folder, env=QUIET, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr


def read_site(site: Path) -> dict[str, bytes]:
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    return {
        name: _MAKER.sub(b"a host", path.read_bytes())
        for name, path in files.items()
        if name not in _MADE_OF_OTHERS
    }


def test_properdocs_makes_the_same_site_with_the_plugin_as_it_is(tmp_path: Path) -> None:
    for name in ("mkdocs", "properdocs"):
        project = copy_small_course(tmp_path / name / "project")
        (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
        host(name, project)
    today, other = (read_site(tmp_path / n / "project/site") for n in ("mkdocs", "properdocs"))
    assert today.keys() == other.keys()
    assert [path for path in today if today[path] != other[path]] == []


@pytest.fixture(params=["mkdocs", "properdocs", "zensical"])
def foreign_site(request: pytest.FixtureRequest, shelf: Path, tmp_path: Path) -> Path:
    """Give the site that a host without our plugin makes of the plain pages."""
    name = request.param
    kind = "zensical" if name == "zensical" else "mkdocs"

    def write(folder: Path) -> None:
        project = copy_small_course(folder / "project")
        (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
        lay_cards(shelf, project)
        done = run_tool("build", project, "--plain", folder / "plain", "--host", kind)
        assert done.returncode == 0, done.stdout + done.stderr

    plain = tmp_path / "plain"
    plain.parent.mkdir(exist_ok=True)
    made = make_once(shelf, f"plain-{kind}", write) / "plain"
    subprocess.run(["cp", "-r", made, plain], check=True)
    host(name, plain)
    return plain / "site"


def test_a_host_without_the_plugin_publishes_every_word_and_notice(
    foreign_site: Path, small_course: Course
) -> None:
    for lesson in small_course.lessons:
        page = lesson_page(lesson).removesuffix(".md") + "/index.html"
        letters = fold_text(read_written_page(foreign_site, page).text)
        assert list_lost_words(small_course, lesson, letters) == []


def test_a_host_without_the_plugin_leaves_no_link_broken(foreign_site: Path) -> None:
    assert find_finished_faults(read_finished_site(foreign_site), Declared()) == ()
