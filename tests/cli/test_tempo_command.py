"""`tempoleaf tempo` as coaches run it, against the worked table of `tests/sums/test_air.py`."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.conftest import WriteCourse

WOMAN = ("--height", "165", "--weight", "60", "--age", "30", "--lung-reference", "female")


def run(*words: str) -> str:
    result = CliRunner().invoke(make_app(["tempo"]), ["tempo", *words])
    if isinstance(result.exception, BuilderError):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    return write_course()


def test_a_box_is_worked_out_for_one_body(project: Path) -> None:
    text = run("4-4-4-4", "--effort", "light", *WOMAN, "--project", str(project))
    for line in (
        "rate      3.75 breaths a minute, slower than slow breathing",
        "cycle     16 s",
        "set       6 breaths in 96 s",
        "effort    light, 2.3 MET (Compendium 2024, 02101)",
        "needed    2.35 L a breath, 0.13 L of it for the airways",
        "share     89%, big: half or more",
        "better    2-2-2-2",
    ):
        assert line in text
    assert "Hall and others 2021" in text
    assert "local rules and licensed clinicians come first" in text
    assert text.index("Sources") < text.index("Ours, with no published source")


def test_programs_get_the_same_numbers(project: Path) -> None:
    got = json.loads(run("4-4-4-4", "--met", "2.8", *WOMAN, "--json", "--project", str(project)))
    assert (got["rate_per_minute"], got["cycle_seconds"], got["set_seconds"]) == (3.75, 16, 96)
    (body,) = got["bodies"]
    assert body["needed_ml"] == pytest.approx(2831, abs=1)
    assert round(100 * body["share"]) == 107
    assert body["size"] == "too big"
    assert got["flagged"] is True
    assert "clinicians" in got["caution"]
    assert {source["key"] for source in got["sources"] if source["ours"]} >= {"air-limits"}
    assert "compendium-2024" not in {source["key"] for source in got["sources"]}


def test_without_a_body_the_courses_bodies_are_taken(project: Path) -> None:
    got = json.loads(run("4-4-4-4", "--json", "--project", str(project)))
    assert [body["size"] for body in got["bodies"]] == ["easy", "big", "big"]
    assert got["better_counts"] == ["3-3-3-3", "2-2-2-2"]


def test_short_sets_are_shown_not_flagged(project: Path) -> None:
    words = ("4-4-4-4", "--breaths", "3", "--project", str(project))
    assert json.loads(run(*words, "--json"))["flagged"] is False
    assert "a set under 60 s is shown, not flagged" in run(*words)
    assert "this count is not too slow here" in run("4-1-4-1", "--project", str(project))


def test_an_effort_unlike_its_source_is_not_called_published(project: Path) -> None:
    path = project / "content" / "course.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("resting: {met: 1.3", "resting: {met: 1.4"), encoding="utf-8")
    text = run("4-1-4-1", "--project", str(project))
    assert "resting, 1.4 MET (not looked up in a published list)" in text
    assert "Ainsworth" not in text


def test_outside_a_course_the_starters_words_are_taken(tmp_path: Path) -> None:
    text = run("3-1-3-1", "--effort", "moderate", "--project", str(tmp_path))
    assert "moderate, 2.8 MET" in text
    assert "no course here: the starter's efforts and bodies are taken." in text
    with pytest.raises(BuilderError, match="there is no folder"):
        run("3-1-3-1", "--project", str(tmp_path / "nowhere"))


@pytest.mark.parametrize(
    ("words", "fact"),
    [
        (("4-4-4",), "has 3 phases, not 4"),
        (("4-1-4-1", "--effort", "ligth"), 'no effort "ligth"; write "light"'),
        (("4-1-4-1", "--effort", "fierce"), "take one of resting, light, or give --met"),
        (("4-1-4-1", "--age", "30"), "a body needs --lung-reference and --height and --weight too"),
        (("4-1-4-1", *WOMAN[:4], "--age", "17", *WOMAN[6:]), "age of 17 years is outside 18 to 80"),
        (("4-1-4-1", "--effort", "light", "--met", "2"), "both --effort and --met are given"),
        (("4-1-4-1", "--met", "12.1"), "effort 12.1 MET is outside 0.8 to 12 MET"),
        (("4-1-4-1", "--met", "nan"), "effort nan MET is outside"),
    ],
)
def test_what_cannot_be_worked_out_is_said_with_a_cure(
    project: Path, words: tuple[str, ...], fact: str
) -> None:
    with pytest.raises(BuilderError) as error:
        run(*words, "--project", str(project))
    assert fact in str(error.value)


def test_no_word_of_diagnosis_is_printed(project: Path) -> None:
    text = run("4-4-4-4", "--met", "2.8", "--project", str(project)).lower()
    for word in ("diagnos", "disease", "abnormal", "co2 tolerance", "healthy lungs", "treat"):
        assert word not in text
