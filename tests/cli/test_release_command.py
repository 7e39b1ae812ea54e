"""`tempoleaf release`: what changed is noted once, with its reason, and nothing is lost."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.course.audience import Audience
from builder.errors import BuilderError
from builder.reading.course_folder import read_course
from builder.sums.version import find_unreleased
from tests.conftest import copy_small_course

LESSON = "content/lessons/count/short-hold.md"
NOTICE = "content/notices/holding.md"


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return copy_small_course(tmp_path / "project")


def release(project: Path, *words: str, code: int = 0) -> str:
    done = CliRunner().invoke(make_app(["release"]), ["release", str(project), *words])
    if isinstance(done.exception, BuilderError):
        raise done.exception
    assert done.exit_code == code, done.output
    return done.output


def change(project: Path, path: str, old: str, new: str) -> None:
    file = project / path
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def lines(project: Path) -> list[str]:
    text = (project / "content" / "releases.yml").read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.startswith("  - ")]


def test_a_first_release_notes_both_cards_of_every_lesson(project: Path) -> None:
    assert "10 noted in" in release(project)
    assert len(lines(project)) == 10
    course = read_course(project).course
    assert course is not None
    assert course.ledger is not None
    assert find_unreleased(course) == ()
    assert {each.on for each in course.ledger.releases} == {date.today()}
    assert release(project) == "Every card is as it was released.\n"


def test_a_changed_lesson_is_added_and_its_old_lines_stay(project: Path) -> None:
    release(project)
    before = lines(project)
    change(project, LESSON, "breaths: 5", "breaths: 4")
    with pytest.raises(BuilderError, match="needs a reason"):
        release(project)
    assert lines(project) == before
    said = release(project, "--why", 'A breath "less": it was  long.')
    assert said.startswith("short-hold, client card: ")
    assert lines(project)[:10] == before
    assert len(lines(project)) == 12
    course = read_course(project).course
    assert course is not None
    assert course.ledger is not None
    last = course.ledger.by_card["short-hold", Audience.CLIENT][-1]
    assert last.why == 'A breath "less": it was long.'


def test_a_changed_notice_counts_for_every_card_that_carries_it(project: Path) -> None:
    release(project)
    text = (project / NOTICE).read_text(encoding="utf-8")
    (short,) = [line for line in text.splitlines() if line.startswith("short:")]
    change(project, NOTICE, short, "short: Skip holds if you have glaucoma.")
    said = release(project, "--why", "A new caution.")
    assert "short-hold, client card" in said
    assert "hand-on-belly" not in said


def test_a_new_lesson_is_a_first_release_whatever_else_changed(project: Path) -> None:
    release(project, "--lesson", "long-out")
    change(project, "content/lessons/count/long-out.md", "breaths: 5", "breaths: 4")
    release(project, "--why", "A breath less.")
    course = read_course(project).course
    assert course is not None
    assert course.ledger is not None
    cards = course.ledger.by_card
    assert cards["long-out", Audience.CLIENT][-1].why == "A breath less."
    assert [each.why for each in cards["short-hold", Audience.CLIENT]] == ["First release."]


@pytest.mark.parametrize("text", ["releases: []\n", "# mine\nreleases: [\n]\n"])
def test_an_empty_ledger_is_begun(project: Path, text: str) -> None:
    (project / "content" / "releases.yml").write_text(text, encoding="utf-8")
    release(project)
    assert read_course(project).findings == ()
    assert len(lines(project)) == 10


def test_a_ledger_that_would_be_broken_is_left_alone(project: Path) -> None:
    release(project, "--lesson", "long-out")
    ledger = project / "content" / "releases.yml"
    rows = ", ".join(line.removeprefix("  - ") for line in lines(project))
    ledger.write_text(f"releases: [{rows}]\n", encoding="utf-8")  # another form, by hand
    before = ledger.read_bytes()
    with pytest.raises(BuilderError, match="can't be added to"):
        release(project)
    assert ledger.read_bytes() == before


def test_only_the_lessons_that_are_named_are_noted(project: Path) -> None:
    release(project)
    change(project, LESSON, "breaths: 5", "breaths: 4")
    change(project, "content/lessons/count/long-out.md", "breaths: 5", "breaths: 4")
    assert "2 noted" in release(project, "--why", "Shorter.", "--lesson", "long-out")
    assert "short-hold" in release(project, "--why", "Shorter too.")
    with pytest.raises(BuilderError, match="no lesson"):
        release(project, "--lesson", "nothing")


def test_a_course_with_errors_is_not_released(project: Path) -> None:
    change(project, LESSON, "builds_on: [plain-count]", "builds_on: [nobody]")
    assert "O101" in release(project, code=1)
    assert not (project / "content" / "releases.yml").exists()


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("{lesson: short-hold, card: client, code: 12345, on: 2026-10-02, why: x}", "H106"),
        ('{lesson: short-hold, card: client, code: "1234I", on: 2026-10-02, why: x}', "H113"),
        ('{lesson: short-hold, card: mine, code: "12345", on: 2026-10-02, why: x}', "H1"),
        ('{lesson: short-hold, card: coach, code: "12345", on: 2999-10-02, why: x}', "H111"),
        ('{lesson: short-hold, card: coach, code: "12345", on: 2026-10-02}', "H103"),
    ],
)
def test_a_broken_line_is_found_with_its_place(project: Path, row: str, found: str) -> None:
    ledger = project / "content" / "releases.yml"
    ledger.write_text(f"releases:\n  - {row}\n", encoding="utf-8")
    (finding,) = read_course(project).findings
    assert str(finding).startswith("content/releases.yml:2:")
    assert finding.rule.id.startswith(found)
    assert f"{row}\n" in ledger.read_text(encoding="utf-8")
    release(project, code=1)


def test_a_clock_that_was_set_back_since_is_told_and_the_ledger_stays(project: Path) -> None:
    release(project)
    ledger = project / "content" / "releases.yml"
    ahead = ledger.read_text(encoding="utf-8").replace(
        date.today().isoformat(), (date.today() + timedelta(days=40)).isoformat()
    )
    ledger.write_text(ahead, encoding="utf-8")
    change(project, LESSON, "Breathe in for three", "Breathe in softly for three")
    said = release(project, "--why", "softer", code=1)
    assert said.count("is still to come") == 10
    assert ledger.read_text(encoding="utf-8") == ahead
