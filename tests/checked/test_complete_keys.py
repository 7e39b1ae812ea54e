"""What is kept never stands in for what would be found now: any edit, by anything it touches.

Each edit is made in turn, in a random row, to the same project; after each, a check that keeps
what it can is compared with one that keeps nothing.
"""

import random
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest

from builder.checked.result import check_project
from builder.checks.run import check_course
from builder.findings import sort_findings
from builder.reading.course_folder import read_course
from tests.conftest import copy_small_course
from tests.spanish import speak_spanish
from tests.trying import count_tries

DAY = date(2026, 10, 2)
LESSONS = "content/lessons"
COUNT = f"{LESSONS}/count/plain-count.md"
HOLD = f"{LESSONS}/count/short-hold.md"
RIBS = f"{LESSONS}/breath/wide-ribs.md"
SPANISH_RIBS = f"{LESSONS}/breath/wide-ribs.es.md"
FLOOR = "content/notices/floor.md"
COURSE = "content/course.yml"

Edit = Callable[[Path], None]


def swap(path: str, before: str, after: str) -> Edit:
    """Put one text for another where it stands, and back again the next time."""

    def edit(root: Path) -> None:
        target = root / path
        text = target.read_text(encoding="utf-8") if target.exists() else ""
        old, new = (after, before) if after in text else (before, after)
        if old in text:
            target.write_text(text.replace(old, new), encoding="utf-8")

    return edit


def lay(path: str, text: str) -> Edit:
    """Add a file, and take it away the next time."""

    def edit(root: Path) -> None:
        target = root / path
        if target.exists():
            target.unlink()
        else:
            target.parent.mkdir(exist_ok=True)
            target.write_text(text, encoding="utf-8")

    return edit


def move(path: str, to: str) -> Edit:
    """Move a file that is there, and back again the next time."""

    def edit(root: Path) -> None:
        here, there = (root / path, root / to)
        here, there = (here, there) if here.exists() else (there, here)
        if here.exists():
            here.rename(there)

    return edit


def link(path: str, to: str) -> Edit:
    """Add a link, and take it away the next time."""

    def edit(root: Path) -> None:
        if (root / path).is_symlink():
            (root / path).unlink()
        else:
            (root / path).symlink_to(root / to)

    return edit


EDITS: dict[str, Edit] = {
    "a step": swap(COUNT, "Breathe in for four.", "Breathe in for nine."),
    "a claim": swap(COUNT, "Count in a low voice.", "This cures asthma."),
    "a title that others name": swap(RIBS, "title: ", "title: Proprioception and "),
    "a dose": swap(COUNT, "breaths: 6", "breaths: 90"),
    "a header with a fault": swap(COUNT, "tempo: 4-1-4-1", "tempo: 4-1-4"),
    "a review still to come": swap(COUNT, "on: 2026-10-01", "on: 2026-10-09"),
    "an allowance": swap(COUNT, "reviewed:", "allow: {W104: it is sung}\nreviewed:"),
    "a name of no lesson": swap(COUNT, "[[wide-ribs]]", "[[wide-rib]]"),
    "a bad address": swap(COUNT, "low voice", "[low](javascript:x) voice"),
    "another lesson's level": swap(HOLD, "level: 2", "level: 7"),
    "a lesson elsewhere": move(HOLD, f"{LESSONS}/breath/short-hold.md"),
    "a lesson under another id": move(HOLD, f"{LESSONS}/count/shorter-hold.md"),
    "a lesson gone": move(HOLD, "short-hold.md"),
    "a notice's short text": swap(FLOOR, "Use a chair", "This heals your back: use a chair"),
    "a notice's review": swap(FLOOR, "on: 2026-10-01", "on: 2020-10-01"),
    "a notice gone": move(FLOOR, "floor.md"),
    "a limit": swap(COURSE, "paper: a6\n", "paper: a6\nlimits: {cue_words: 3}\n"),
    "the language": swap(COURSE, "language: en-GB", "language: en-US"),
    "the caution": swap(COURSE, "Your own clinician comes first.", "It cures asthma."),
    "a position's term": swap(COURSE, "term: supine", "term: sternum"),
    "a prop": swap(COURSE, "title: mat,", "title: rug,"),
    "a course file that can't be read": swap(COURSE, "title: A small", "title: [A small"),
    "the glossary": swap("content/glossary.md", "## ", "## Old "),
    "a page": swap("content/index.md", "# ", "[[nobody]] "),
    "a stray": lay(f"{LESSONS}/count/notes.txt", "Who reads this?"),
    "records of people": lay("content/people.csv", "id,name\n"),
    "a hidden file": lay("content/.notes", "x"),
    "a ledger": lay(
        "content/releases.yml",
        "releases:\n- {on: 2026-10-01, lesson: plain-count, card: client, code: '00000',"
        " why: first}\n",
    ),
    "a table of starts": lay("content/placement.yml", "questions: []\n"),
    "words in Spanish": swap(SPANISH_RIBS, "title: ", "title: Esto cura el asma, "),
    "a long cue in Spanish": swap(
        SPANISH_RIBS, "Las costillas bajan", "Las costillas bajan y bajan y bajan y bajan y bajan"
    ),
    "a Spanish file gone": move(SPANISH_RIBS, "wide-ribs.es.md"),
    "a Spanish course gone": move("content/course.es.yml", "course.es.yml"),
    "what was translated": move(
        f"content/.originals/es/{RIBS.removeprefix('content/')}.json", "kept.json"
    ),
    "a link": link("content/linked.md", COUNT),
    "not UTF-8": swap(COUNT, "Wait for one.", "Wait for one.\u202e"),
}


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return speak_spanish(copy_small_course(tmp_path / "course", "2026-10-01"))


def tell_anew(project: Path, day: date) -> list[str]:
    """Check with nothing kept."""
    reading = read_course(project, today=day)
    checked = check_course(reading.course) if reading.course else ()
    return [repr(finding) for finding in sort_findings((*reading.findings, *checked))]


def tell_kept(project: Path, day: date) -> list[str]:
    return [repr(finding) for finding in check_project(project, day).findings]


@pytest.mark.parametrize("seed", range(count_tries(2, 40)))
def test_a_check_that_keeps_says_what_one_that_keeps_nothing_says(project, seed):
    row = random.Random(seed)  # noqa: S311  # for trying, not for secrets
    names = [*EDITS, *EDITS]
    row.shuffle(names)
    for name in names:
        EDITS[name](project)
        day = DAY + timedelta(days=row.choice([0, 0, 0, 7, 400]))
        assert tell_kept(project, day) == tell_anew(project, day), name
        assert tell_kept(project, day) == tell_anew(project, day), f"{name}, again"


@pytest.mark.parametrize("name", EDITS)
def test_each_edit_alone_is_seen_after_a_sound_course_was_kept(project, name):
    tell_kept(project, DAY)
    EDITS[name](project)
    assert tell_kept(project, DAY) == tell_anew(project, DAY)


def test_what_is_sound_on_a_later_day_is_not_kept_for_an_earlier_one(project):
    EDITS["a review still to come"](project)
    later = DAY + timedelta(days=30)
    assert tell_kept(project, later) == tell_anew(project, later)
    assert tell_kept(project, DAY) == tell_anew(project, DAY) != tell_anew(project, later)


def test_most_of_these_edits_are_findings(project):
    before = tell_anew(project, DAY)
    changed = []
    for name, edit in EDITS.items():
        edit(project)
        changed += [name] if tell_anew(project, DAY) != before else []
        edit(project)
    assert set(EDITS) - set(changed) <= {"a hidden file", "a prop"}
