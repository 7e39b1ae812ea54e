"""`tempoleaf publish` over a course that is built as the workflow files say."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest

from builder.cli.publish_command import WORKFLOWS
from builder.publishing.site.offline import write_worker
from builder.reading.yaml_tree import read_yaml
from builder.work.folder_files import FolderFiles
from tests.made_once import make_once
from tests.running import Done, run_tool

ADDRESS = "https://harbour.example/breath/"
SCRIPTS = Path(sys.executable).parent
CARD = "cards/ready-to-start.pdf"
LESSON = "lessons/first-checks/ready-to-start/index.html"


def run(folder: Path, line: str) -> subprocess.CompletedProcess[str]:
    """Run a line of a workflow file, in the shell that hosts use."""
    path = f"{SCRIPTS}{os.pathsep}{os.environ['PATH']}"
    return subprocess.run(
        ["bash", "-eo", "pipefail", "-c", line],
        cwd=folder,
        env={**os.environ, "PATH": path, "NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def publish(folder: Path, *words: str) -> Done:
    return run_tool("publish", *words, folder=folder)


@pytest.fixture(scope="session")
def built(shelf: Path) -> Path:
    """Give a course that was made and built as a host does it."""
    return make_once(shelf, "host", build_as_gitlab) / "harbour"


def build_as_gitlab(folder: Path) -> None:
    """Make a new course and do in it what GitLab is told to do, in the same order."""
    project = folder / "harbour"
    options = f"--name Harbour --strands first-checks --address {ADDRESS}"
    made = run(project.parent, f"tempoleaf new harbour {options}")
    assert made.returncode == 0, made.stderr
    settings = (project / "mkdocs.yml").read_text("utf-8")
    small = settings.replace("- tempoleaf", "- tempoleaf: {papers: [a6]}")  # sooner than with all
    (project / "mkdocs.yml").write_text(small, "utf-8")
    tree, _ = read_yaml((project / WORKFLOWS["GitLab Pages"]).read_text("utf-8"), "")
    assert tree is not None
    pages = tree.values["pages"]
    assert isinstance(pages, dict)
    lines = pages["script"]
    assert isinstance(lines, list)
    assert len(lines) == 4
    for line in lines:
        done = run(project, str(line))
        assert done.returncode == 0, f"{line}\n{done.stdout}{done.stderr}"


@pytest.fixture
def site(built: Path, tmp_path: Path) -> Path:
    """Give a copy of the finished site, away from its sources."""
    shutil.copytree(built / "public", tmp_path / "public")
    return tmp_path / "public"


def test_what_a_host_publishes_stands_in_its_folder(built: Path) -> None:
    assert not (built / "site").exists()
    for path in ("index.html", "404.html", "_headers", ".nojekyll", CARD, LESSON):
        assert (built / "public" / path).is_file(), path


def test_a_sound_site_is_told_as_such_without_its_sources(site: Path) -> None:
    done = publish(site.parent, "--check", "public")
    assert (done.returncode, done.stderr) == (0, "")
    assert f"ok     address   {ADDRESS} on pages, lists and the codes of cards" in done.stdout
    assert re.search(
        r"^Every link in \d+ pages, \d+ PDFs, 1 book leads somewhere\.", done.stdout, re.M
    )
    assert "to do" not in done.stdout


def test_without_check_nothing_is_uploaded_and_ways_are_named(site: Path) -> None:
    done = publish(site.parent)
    assert (done.returncode, done.stdout) == (2, "")
    assert "tempoleaf uploads nothing itself" in done.stderr
    for path in WORKFLOWS.values():
        assert path in done.stderr


def test_a_folder_without_a_site_stops_the_run(tmp_path: Path) -> None:
    done = publish(tmp_path, "--check")
    assert done.returncode == 2
    assert 'there is no finished site in "site"' in done.stderr


def test_a_page_that_went_is_missed_by_pages_and_by_its_card(site: Path) -> None:
    (site / LESSON).unlink()
    write_worker(FolderFiles(site))
    done = publish(site.parent, "--check", "public")
    assert done.returncode == 1
    (page,) = re.findall(
        r"^\S+\.html:1:1: (L101) .*\n    target: .*\n    also in", done.stdout, re.M
    )
    (card,) = re.findall(r"^cards/\S+:1:1: (L101) broken-link: the QR code to", done.stdout, re.M)
    assert (page, card) == ("L101", "L101")
    assert "sitemap.xml:1:1: L101 broken-link: " in done.stdout
    assert "to do  links     " in done.stdout


def test_an_anchor_that_went_is_missed(site: Path) -> None:
    page = site / "glossary" / "index.html"
    text = page.read_text("utf-8")
    page.write_text(re.sub(r'<h2 id="[^"]*"', "<h2", text), "utf-8")
    done = publish(site.parent, "--check", "public")
    assert done.returncode == 1
    assert "L102 broken-anchor" in done.stdout
    assert '"glossary/index.html" has changed since the list was made' in done.stdout


def test_an_address_that_changed_after_the_build_is_named(built: Path, tmp_path: Path) -> None:
    shutil.copytree(built, tmp_path / "moved")
    course = tmp_path / "moved" / "content" / "course.yml"
    course.write_text(course.read_text("utf-8").replace(ADDRESS, "https://new.example/"), "utf-8")
    done = publish(tmp_path / "moved", "--check", "public")
    assert done.returncode == 1
    assert re.search(r'course\.yml:\d+:\d+: L104 .*"https://new\.example/" is set', done.stdout)


def test_a_card_with_a_dead_link_is_named(site: Path) -> None:
    with pikepdf.open(site / CARD, allow_overwriting_input=True) as pdf:
        action = pikepdf.Dictionary(S=pikepdf.Name.URI, URI=f"{ADDRESS}gone/")
        note = pikepdf.Dictionary(Subtype=pikepdf.Name.Link, A=action)
        pdf.pages[0].obj.Annots = pikepdf.Array([note])
        pdf.save()
    write_worker(FolderFiles(site))
    done = publish(site.parent, "--check", "public")
    assert done.returncode == 1
    (found,) = [line for line in done.stdout.splitlines() if line.startswith("cards/")]
    assert found == (
        f'{CARD}:1:1: L101 broken-link: a link on page 1 to "{ADDRESS}gone/" leads to no page '
        "or file; mend or drop the link in the course and build again."
    )
