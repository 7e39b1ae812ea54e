"""`tempoleaf build` from end to end, over the small course."""

import re
import shutil
from pathlib import Path

import pytest

from tests.conftest import SMALL_COURSE, WriteCourse
from tests.local_cluster import find_loaded, start_cluster
from tests.made_once import A6_ONLY, lay_cards
from tests.running import Done, run_host, run_tool

HOLD = "content/lessons/count/short-hold.md"


def build(folder: Path, *options: str) -> Done:
    return run_tool("build", *options, folder=folder)


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course({"mkdocs.yml": A6_ONLY})


@pytest.fixture
def with_cards(shelf: Path, project: Path) -> Path:
    """Give the project after its cards were printed once."""
    lay_cards(shelf, project)
    return project


def with_short_tempo() -> str:
    text = (SMALL_COURSE / HOLD).read_text(encoding="utf-8")
    return text.replace("tempo: 3-3-3-3", "tempo: 3-3")


def test_a_build_makes_site_cards_and_packs_and_says_where(project: Path) -> None:
    done = build(project, "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    assert re.search(
        r"^\d+ pages and 12 PDFs stand in site, made in \d+\.\d s\.$", done.stdout, re.M
    )
    for path in ("index.html", "cards/short-hold.pdf", "cards/packs/whole-course.pdf"):
        assert (project / "site" / path).is_file()


def test_a_finding_stops_the_build_and_the_old_site_stands(project: Path) -> None:
    (project / "site").mkdir()
    (project / "site/old.html").write_text("old", encoding="utf-8")
    (project / HOLD).write_text(with_short_tempo(), encoding="utf-8")
    before = {path.name for path in project.iterdir()}
    done = build(project)
    assert done.returncode == 1
    assert f"{HOLD}:7:8: H107 tempo-malformed" in done.stdout
    assert (project / "site/old.html").read_text(encoding="utf-8") == "old"
    assert {path.name for path in project.iterdir()} - {".cache"} == before


def test_a_fault_that_only_the_finished_site_shows_leaves_nothing_behind(with_cards: Path) -> None:
    project = with_cards
    (project / "content/extra.md").write_text("# Extra\n\n[gone](gone.md)\n", encoding="utf-8")
    done = build(project)
    assert done.returncode == 1
    assert 'content/extra.md:3:6: L101 broken-link: "gone.md"' in done.stdout
    left = {path.name for path in project.iterdir()} - {".cache"}
    assert left == {"content", "mkdocs.yml"}


def test_a_project_without_settings_is_told_what_to_do(write_course: WriteCourse) -> None:
    done = build(write_course())
    assert done.returncode == 2
    assert '"mkdocs.yml" is missing; ' in done.stderr
    assert "Traceback" not in done.stderr


def test_a_zip_is_of_a_site_and_not_of_plain_pages(project: Path) -> None:
    done = build(project, "--plain", "plain", "--zip", "course.zip")
    assert done.returncode == 2
    assert "--zip and --plain are given together" in done.stderr
    assert not (project / "plain").exists()


def test_plain_pages_need_no_plugin(with_cards: Path) -> None:
    project = with_cards
    done = build(project, "--plain", "plain")
    assert done.returncode == 0, done.stdout + done.stderr
    plain = project / "plain"
    assert "tempoleaf" not in (plain / "mkdocs.yml").read_text(encoding="utf-8").split("plugins")[1]
    hosted = run_host("build", "--strict", folder=plain)
    assert hosted.returncode == 0, hosted.stderr
    page = (plain / "site/lessons/count/short-hold/index.html").read_text(encoding="utf-8")
    assert "Breathe in for three, then hold for three." in page
    assert (plain / "site/cards/short-hold.pdf").is_file()


def read_site(site: Path) -> dict[str, bytes]:
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }


def test_a_cluster_prints_what_belongs_to_a_site_and_all_of_it_is_the_same(project: Path) -> None:
    assert build(project, "--site", "here").returncode == 0
    shutil.rmtree(project / ".cache")
    with start_cluster(2) as address:
        done = build(project, "--quiet", "--cluster", address, "--site", "there")
        assert (done.returncode, done.stderr) == (0, ""), done.stdout
        for printer in ("cards.press", "cards.packs", "posters.paint"):
            assert True in find_loaded(address, f"builder.publishing.{printer}")
    here, there = read_site(project / "here"), read_site(project / "there")
    assert {"cards/short-hold.pdf", "cards/packs/whole-course.pdf"} <= here.keys()
    assert list(here) == list(there)
    assert [name for name in here if here[name] != there[name]] == []
