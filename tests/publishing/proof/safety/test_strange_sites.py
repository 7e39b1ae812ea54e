"""Sites made by somebody who wants no answer: they get one, in time, and nothing else is read."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pikepdf import Dictionary, Name

from builder.publishing.proof.safety.again import prove_again
from builder.publishing.proof.safety.evidence import Artefact, Kind
from builder.publishing.proof.safety.look import Look, look_at_strange
from builder.publishing.proof.safety.sighting import Lack
from builder.publishing.proof.safety.source import Source
from tests.publishing.proof.safety.pdf_edits import A6, NAME, NOTICE, add_resource, change, draw

ONLY_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="bounds need copies of a process")


def tell(site: Path) -> list[str]:
    return [str(finding) for finding in prove_again(site).findings]


@pytest.fixture
def bare(tmp_path: Path) -> Path:
    """Give a folder that is hardly a site: one page, and a proof of no lesson."""
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_text("<!doctype html><title>A site</title>", "utf-8")
    write_proof(site)
    return site


def write_proof(site: Path, **parts: Any) -> None:
    whole = {"form": 1, "tool": "0", "editions": [], "sources": {}, "files": {}, **parts}
    (site / "proof.json").write_text(json.dumps(whole), "utf-8")


@ONLY_LINUX
def test_a_card_that_draws_for_ever_is_not_read(card: bytes) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        part = pdf.make_stream(b"0 0 1 1 re f", Subtype=Name.Form, BBox=[0, 0, *A6])
        for _ in range(12):
            inner = Dictionary(XObject=Dictionary(F=part))
            form = {"Subtype": Name.Form, "BBox": [0, 0, *A6], "Resources": inner}
            part = pdf.make_stream(b"/F Do " * 10, **form)
        add_resource(pdf, "/XObject", "/Endless", part)
        draw("/Endless Do")(pdf)

    content = change(card, edit)
    look = Look(Artefact(Kind.CARD, "a.pdf", "a6"), {NAME: NOTICE})
    (seen,) = look_at_strange(Source({"a.pdf": content}.__getitem__, ()), [look], seconds=0.2)
    assert seen[NAME].lack is Lack.UNREAD


def test_folders_in_folders_come_to_an_end(bare: Path) -> None:
    deep = bare
    for _ in range(1100):
        deep /= "a"
        os.mkdir(str(deep))  # noqa: PTH102  # each is one step, without looking at those above
    (deep / "x.html").write_text("x", "utf-8")
    try:
        assert any("x.html:1:1: E107" in line for line in tell(bare))
    finally:
        subprocess.run(["rm", "-r", "a"], cwd=bare, check=True)  # too deep for Python to clear away


def test_a_file_that_is_larger_than_any_disk_is_not_read(bare: Path) -> None:
    with (bare / "film.mp4").open("wb") as file:
        file.truncate(10**12)
    write_proof(bare, files={"film.mp4": "0" * 64})
    assert any("film.mp4:1:1: E105" in line for line in tell(bare))


def test_a_proof_that_is_far_too_large_is_none(bare: Path) -> None:
    with (bare / "proof.json").open("r+b") as file:
        file.truncate(70 * 1024 * 1024)
    (line,) = tell(bare)
    assert "E108 proof-unsound: it is far too large" in line


@pytest.mark.parametrize("name", ["../site/index.html", "/etc/hosts", "a/../index.html", "", "."])
def test_a_path_that_leads_elsewhere_is_a_lost_file(bare: Path, name: str) -> None:
    write_proof(bare, files={name: "0" * 64})
    assert any("E106 file-lost" in line for line in tell(bare))


def test_a_name_that_is_no_text_is_told(bare: Path) -> None:
    Path(os.fsdecode(bytes(bare) + b"/\xff\n.html")).write_text("x", "utf-8")
    told = [line for line in tell(bare) if "udcff" in line]
    assert len(told) == 1
    assert told[0].encode("utf-8").count(b"\n") == 0


def test_a_proof_of_another_form_is_told_with_its_cure(bare: Path) -> None:
    write_proof(bare, form=2)
    (line,) = tell(bare)
    assert "prove the site with the version of tempoleaf that built it" in line


def test_a_proof_of_more_than_any_course_has_is_none(bare: Path) -> None:
    edition = {
        "folder": "",
        "language": "en",
        "title": "A",
        "caution": "B",
        "caution_source": "c",
        "traits": {},
        "notices": [],
        "lessons": [],
    }
    write_proof(bare, editions=[{**edition, "folder": f"{n}/"} for n in range(401)])
    (line,) = tell(bare)
    assert "it tells of more than any course has" in line


@pytest.mark.parametrize("make", [os.mkfifo, Path.touch, lambda path: path.symlink_to("/dev/zero")])
def test_a_proof_that_is_no_file_with_words_is_told(bare: Path, make: Any) -> None:
    (bare / "proof.json").unlink()
    make(bare / "proof.json")
    assert any("E108 proof-unsound" in line for line in tell(bare))
