"""`tempoleaf translate`: how far a language is, drafts, and agreeing."""

from datetime import date
from pathlib import Path

import pytest

from builder.cli.translate_command import translate
from builder.errors import BuilderError
from builder.reading.course_folder import read_course
from tests.conftest import REVIEWED_ON, WriteCourse
from tests.spanish import change, speak_spanish

TODAY = date(2026, 11, 1)


@pytest.fixture
def spanish(write_course: WriteCourse, capsys: pytest.CaptureFixture[str]) -> Path:
    root = speak_spanish(write_course(reviewed_on=REVIEWED_ON))
    capsys.readouterr()
    return root


def test_it_says_what_is_missing_and_what_changed(
    spanish: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = spanish / "content"
    (content / "index.es.md").unlink()
    change(content / "notices/slow.md", "Small, quiet breaths.", "Small, soft breaths.")
    translate("es", project=spanish)
    assert capsys.readouterr().out.split("\n") == [
        f"{content}/notices/slow.es.md: out of date",
        '    short, was: "Small, quiet breaths. If you feel dizzy, breathe as you like."',
        '    short, now: "Small, soft breaths. If you feel dizzy, breathe as you like."',
        f"{content}/index.es.md: missing",
        "8 of 10 translations are current.",
        "",
    ]


def test_drafts_hold_every_word_of_the_original_and_can_be_read(
    spanish: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = spanish / "content"
    files = sorted(content.rglob("*.es.*"))
    assert len(files) == 10
    for path in files:
        path.unlink()
    translate("es", project=spanish, draft=True)
    assert sorted(content.rglob("*.es.*")) == files
    assert "10 drafts were written." in capsys.readouterr().out
    reading = read_course(spanish, today=TODAY)
    # A draft of a caution counts as none, so that nothing goes out with it.
    assert {finding.rule.id for finding in reading.findings} == {"G101", "G102"}
    assert all(" still says " in finding.fact for finding in reading.findings)
    assert reading.course
    course, drafted = reading.course, reading.course.translations["es"]
    for lesson in drafted.lessons:
        before = course.by_id[lesson.id]
        assert (lesson.title, lesson.summary) == (before.title, before.summary)
        assert [p.text for p in lesson.words.steps] == [p.text for p in before.words.steps]
        assert lesson.words.watch_for == before.words.watch_for
    assert [n.long for n in drafted.notices] == [n.long for n in course.notices]


def test_a_draft_never_writes_over_a_translation(spanish: Path) -> None:
    before = (spanish / "content/index.es.md").read_bytes()
    translate("es", project=spanish, draft=True)
    assert (spanish / "content/index.es.md").read_bytes() == before


@pytest.mark.parametrize("name", ["slow", "notices/slow.md", "content/notices/slow.md"])
def test_one_file_is_agreed_to_by_id_or_path(
    spanish: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    content = spanish / "content"
    change(content / "notices/slow.md", "quiet", "soft")
    change(content / "notices/floor.md", "a chair", "a firm chair")
    translate("es", [name], project=spanish, agree=True)
    translate("es", project=spanish)
    said = capsys.readouterr().out
    assert f"{content}/notices/slow.es.md: agreed" in said
    assert f"{content}/notices/floor.es.md: out of date" in said
    assert "9 of 10 translations are current." in said


@pytest.mark.parametrize(
    ("language", "names", "message"),
    [
        ("fr", [], '"fr" is no language of this course'),
        ("es", ["nothing"], '"nothing" is nothing that is translated'),
    ],
)
def test_what_is_not_there_is_refused(
    spanish: Path, language: str, names: list[str], message: str
) -> None:
    with pytest.raises(BuilderError, match=message):
        translate(language, names, project=spanish)
