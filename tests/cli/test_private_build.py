"""A site that names a client is refused, wherever the name stands; the old site stays."""

from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from tests.conftest import SMALL_COURSE, WriteCourse
from tests.made_once import A6_ONLY, lay_cards
from tests.running import Done, run_tool

LESSON = "content/lessons/count/long-out.md"
PEOPLE = "id,display name,conditions\np-01,Ada Quillimore,pregnancy\n"
NAME = "the display name of"


def run(project: Path, *words: str) -> Done:
    return run_tool(*words, folder=project)


@pytest.fixture
def project(shelf: Path, write_course: WriteCourse) -> Path:
    files = {"mkdocs.yml": A6_ONLY, "program/people.csv": PEOPLE}
    root = write_course({**files, "site/old.html": "old", "site/.tempoleaf": ""})
    lay_cards(shelf, root)
    return root


def attach(content: bytes) -> bytes:
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        pdf.attachments["list.txt"] = content
        pdf.save(target := BytesIO())
    return target.getvalue()


def test_each_place_of_a_name_refuses_the_build(project: Path) -> None:
    lesson = (SMALL_COURSE / LESSON).read_text(encoding="utf-8")
    (project / LESSON).write_text(lesson.replace("\n1. ", "\n1. As Ada Quillimore does it. ", 1))
    (project / "content/hello.md").write_text("# Hello\n\nThanks to Ada Quillimore.\n")
    title = '<svg xmlns="http://www.w3.org/2000/svg"><title>Ada Quillimore</title></svg>'
    (project / "content/drawing.svg").write_text(title)
    (project / "content/ada-quillimore.txt").write_text("A song to breathe with.\n")
    (project / "content/songs.pdf").write_bytes(attach(b"sung by Ada Quillimore"))
    done = run(project, "build")
    assert done.returncode == 1, done.stdout + done.stderr
    told = [line for line in done.stdout.splitlines() if " V101 " in line]
    for start, end in (
        ("hello/index.html:", "stands here"),
        ("lessons/count/long-out/index.html:", "stands here"),
        ("cards/long-out.pdf:1:1: ", "stands in page 1"),
        ("drawing.svg:1:1: ", "stands here"),
        ("(named after p-01).txt:1:1: ", None),
        ("songs.pdf:1:1: ", "stands in an attachment"),
    ):
        wanted = f'{NAME} "p-01" {end}' if end else f'path has {NAME} "p-01"'
        assert any(each.startswith(start) and wanted in each for each in told), (start, told)
    assert "Quillimore" not in done.stdout
    assert (project / "site/old.html").read_text() == "old"


def test_a_site_that_names_nobody_is_built_and_looked_at_again(project: Path) -> None:
    (project / "site/old.html").unlink()
    done = run(project, "build", "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    done = run(project, "publish", "--check")
    assert 'names, goals and notes of the people in "program".' in done.stdout
    with (project / "site/robots.txt").open("a") as file:
        file.write("# Ada Quillimore\n")
    done = run(project, "publish", "--check", "--program", "program")
    assert done.returncode == 1
    assert f'V101 private-text: {NAME} "p-01" stands here' in done.stdout


def test_plain_pages_that_name_a_client_are_refused(project: Path) -> None:
    (project / "content/hello.md").write_text("# Hello\n\nThanks to Ada Quillimore.\n")
    done = run(project, "build", "--plain", "plain")
    assert done.returncode == 1
    assert f'docs/hello.md:7:1: V101 private-text: {NAME} "p-01" stands here' in done.stdout
    assert not (project / "plain").exists()
