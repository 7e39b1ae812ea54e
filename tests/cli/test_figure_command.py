"""`tempoleaf figure` as people run it."""

import re
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

LESSON = "content/lessons/count/short-hold.md"


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    root = write_course()
    path = root / LESSON
    text = path.read_text(encoding="utf-8")
    figure = "figure: {pose: back-knees-bent, hands: {left: belly}, breath: [belly]}"
    path.write_text(text.replace("\nreviewed:", f"\n{figure}\nreviewed:", 1), encoding="utf-8")
    return root


def run(*words: str) -> str:
    result = CliRunner().invoke(make_app(["figure"]), ["figure", *words])
    if isinstance(result.exception, BuilderError):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


def test_a_figure_is_written_as_svg(project: Path) -> None:
    out = project / "drawn"
    assert "1 files stand in" in run("short-hold", "--project", str(project), "--out", str(out))
    svg = (out / "short-hold.svg").read_text(encoding="utf-8")
    assert re.findall("<title>(.*)</title>", svg) == ["Lying on the back, knees bent, feet flat"]


def test_a_figure_is_written_as_png(project: Path) -> None:
    out = project / "drawn"
    run("short-hold", "--png", "--project", str(project), "--out", str(out))
    image = Image.open(out / "short-hold.png")
    assert image.width > 1000
    assert len(image.convert("L").getcolors(256) or ()) > 5  # more than white


def test_all_figures_come_on_sheets(project: Path) -> None:
    out = project / "drawn"
    run("--sheet", "--project", str(project), "--out", str(out))
    pages = pypdf.PdfReader(BytesIO((out / "figures.pdf").read_bytes())).pages
    text = " ".join(page.extract_text() for page in pages)
    assert "in-breath" in text
    assert "no figure" in text
    assert len(list(out.glob("figures-*.png"))) == len(pages)


def test_a_lesson_that_is_not_there_is_told(project: Path) -> None:
    with pytest.raises(BuilderError, match='no lesson "short-hald"') as caught:
        run("short-hald", "--project", str(project))
    assert "short-hold" in caught.value.cure


def test_a_lesson_without_a_figure_is_told(project: Path) -> None:
    with pytest.raises(BuilderError, match="has no figure") as caught:
        run("plain-count", "--project", str(project))
    assert '"pose"' in caught.value.cure


def test_a_folder_of_somebody_else_is_left_alone(project: Path) -> None:
    out = project / "content"
    with pytest.raises(BuilderError, match="did not make"):
        run("short-hold", "--project", str(project), "--out", str(out))
    assert (out / "course.yml").is_file()
