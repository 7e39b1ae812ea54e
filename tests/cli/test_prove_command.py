"""`tempoleaf prove` over a site that was just built, and over folders that are none."""

import hashlib
import json
import re
from pathlib import Path

import pytest

from tests.conftest import WriteCourse, copy_small_course
from tests.made_once import A6_ONLY, build_once, lay_cards
from tests.running import Done, run_host, run_tool


def prove(*words: str | Path) -> Done:
    return run_tool("prove", *words)


@pytest.fixture
def site(shelf: Path, write_course: WriteCourse) -> Path:
    return build_once(shelf, write_course({"mkdocs.yml": A6_ONLY}), strict=True)


def test_a_build_tells_the_digest_that_a_proof_finds(
    shelf: Path, write_course: WriteCourse
) -> None:
    project = write_course({"mkdocs.yml": A6_ONLY})
    lay_cards(shelf, project)
    built = run_tool("build", "--strict", folder=project)
    told = re.search(r"^Digest of site/proof\.json: ([0-9a-f]{64})$", built.stdout, re.M)
    assert told
    again = run_tool("prove", "--digest", told[1], folder=project)
    assert again.returncode == 0, again.stdout
    assert f"Digest of site/proof.json: {told[1]}" in again.stdout
    assert "Every caution of 5 lessons was read back from 25 pages" in again.stdout


def test_two_builds_of_the_same_course_have_the_same_digest(
    shelf: Path, site: Path, tmp_path: Path
) -> None:
    project = copy_small_course(tmp_path / "elsewhere")
    (project / "mkdocs.yml").write_text(A6_ONLY, "utf-8")
    lay_cards(shelf, project)
    assert run_tool("build", folder=project).returncode == 0
    assert (project / "site/proof.json").read_bytes() == (site / "proof.json").read_bytes()


def test_the_digest_is_the_sha_256_of_the_file(site: Path) -> None:
    digest = hashlib.sha256((site / "proof.json").read_bytes()).hexdigest()
    assert prove(site).stdout.splitlines()[-1].endswith(f"proof.json: {digest}")


def test_a_changed_site_fails_and_says_what_to_do(site: Path) -> None:
    with (site / "index.html").open("a") as page:
        page.write("<p>More</p>")
    done = prove(site)
    assert done.returncode == 1
    assert done.stdout.startswith("index.html:1:1: E105 file-changed: ")
    assert "Hand nothing out of this folder: build the site again." in done.stdout


def test_another_digest_fails(site: Path) -> None:
    done = prove(site, "--digest", "0" * 64)
    assert done.returncode == 1
    assert "E109 proof-changed" in done.stdout


@pytest.mark.parametrize("digest", ["0", "x" * 64, "0" * 65])
def test_a_digest_that_is_none_is_refused(site: Path, digest: str) -> None:
    done = prove(site, "--digest", digest)
    assert done.returncode == 2
    assert "is no digest of a proof" in done.stderr


def test_programs_get_json_with_the_digest(site: Path) -> None:
    (site / "404.html").unlink()
    done = prove(site, "--format", "json")
    told = json.loads(done.stdout)
    assert done.returncode == 1
    assert [finding["rule"] for finding in told["findings"]] == ["E106"]
    assert told["digest"] == hashlib.sha256((site / "proof.json").read_bytes()).hexdigest()
    assert (told["artefacts"], told["summary"]["lessons"]) == (25, 5)


@pytest.mark.parametrize("form", ["sarif", "github"])
def test_other_forms_hold_the_finding(site: Path, form: str) -> None:
    (site / "404.html").unlink()
    assert "file-lost" in prove(site, "--format", form).stdout


def test_a_folder_that_is_no_site_can_not_be_proved(tmp_path: Path) -> None:
    for folder in (tmp_path, tmp_path / "gone"):
        done = prove(folder)
        assert done.returncode == 2
        assert done.stderr.startswith("cannot go on: ")


def test_the_host_alone_writes_the_same_proof(shelf: Path, write_course: WriteCourse) -> None:
    project = write_course({"mkdocs.yml": A6_ONLY})
    lay_cards(shelf, project)
    assert run_host("build", "-q", folder=project).returncode == 0
    assert run_tool("prove", folder=project).returncode == 0


def test_a_style_that_hides_notices_stops_both_builds(
    shelf: Path, write_course: WriteCourse
) -> None:
    settings = f"{A6_ONLY}extra_css: [mine.css]\n"
    style = ".md-typeset ul.tl-notices { display: none }"
    project = write_course({"mkdocs.yml": settings, "content/mine.css": style})
    lay_cards(shelf, project)
    built = run_tool("build", folder=project)
    assert built.returncode == 1
    assert (
        "content/notices/holding.md:6:8: E101 notice-unseen: "
        'the notice "holding" of "short-hold" can\'t be read in '
        '"lessons/count/short-hold/index.html": hidden; ' in built.stdout
    )
    assert not (project / "site").exists()
    hosted = run_host("build", folder=project)
    assert hosted.returncode == 1
    assert list((project / "site").iterdir()) == []
