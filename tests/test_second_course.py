"""A course on another subject: the same code, with words of its own."""

import shutil
from datetime import date
from html import unescape
from pathlib import Path

import pypdf
import pytest

from builder.checks.run import check_course
from builder.course.course import Course
from builder.course.trait import TRAITS
from builder.publishing.views.wording import word_position
from builder.reading.course_folder import read_course
from builder.resources import find_starter
from builder.sums.timing import time_drill
from tests.running import run_tool

SECOND_COURSE = Path(__file__).parent / "second_course"
READ_ON = date(2026, 11, 1)
REVIEWED_ON = "2026-10-12"


@pytest.fixture(scope="module")
def course() -> Course:
    reading = read_course(SECOND_COURSE, today=READ_ON)
    assert reading.findings == ()
    assert reading.course
    return reading.course


def test_no_rule_finds_anything(course: Course) -> None:
    assert check_course(course) == ()


def test_nearly_no_word_is_the_starter_s(course: Course) -> None:
    starter = read_course(find_starter().parent).course
    assert starter
    ours, theirs = course.vocabulary, starter.vocabulary
    assert not set(ours.strands) & set(theirs.strands)
    assert not set(ours.positions) & set(theirs.positions)
    assert set(ours.props) & set(theirs.props) == {"chair", "timer"}
    assert not set(course.by_id) & set(starter.by_id)
    assert not {each.id for each in course.notices} & {each.id for each in starter.notices}


def test_its_own_traits_call_for_its_own_notices(course: Course) -> None:
    own = set(course.traits) - set(TRAITS)
    assert own == {"voice-strain", "open-flame", "sustained-sound"}
    carried = {
        lesson.id: {notice.id for notice in course.notices_for(lesson)} for lesson in course.lessons
    }
    assert "flame" in carried["steady-flame"]
    assert "tired-voice" in carried["straw-hum"] & carried["sung-count"]
    assert "tired-voice" not in carried["counted-hiss"]
    assert "waiting" in carried["silent-upbeat"]


def test_a_trait_of_its_own_without_a_notice_is_a_finding(tmp_path: Path) -> None:
    shutil.copytree(SECOND_COURSE, tmp_path / "c")
    (tmp_path / "c" / "content" / "notices" / "flame.md").unlink()
    read = read_course(tmp_path / "c", today=READ_ON).course
    assert read
    assert [str(finding) for finding in check_course(read)] == [
        "content/lessons/support/steady-flame.md:13:17: N101 trait-without-notice: "
        '"open-flame" (a flame in the room) has no notice; '
        "write one with traits: [open-flame]."
    ]


def test_times_and_words_come_out_of_its_own_values(course: Course) -> None:
    lesson = course.by_id["steady-flame"]
    # By hand: 2 sets of 5 breaths of 3 + 0 + 6 + 1 s are 100 s, and one rest of 40 s.
    assert time_drill(lesson.drill, set_up_seconds=30).drill_seconds == 140
    assert word_position(lesson.drill.position) == "standing with the back on a wall (wall lean)"


def test_the_site_and_every_card_are_built_and_carry_its_notices(
    tmp_path: Path, course: Course
) -> None:
    root = tmp_path / "choir"
    shutil.copytree(SECOND_COURSE, root)
    for path in (root / "content").rglob("*.md"):
        text = path.read_text("utf-8")
        path.write_text(text.replace(REVIEWED_ON, date.today().isoformat()), "utf-8")
    done = run_tool("build", "--strict", folder=root)
    assert done.returncode == 0, done.stdout + done.stderr
    for lesson in course.lessons:
        site = root / "site"
        page = (site / "lessons" / lesson.strand.id / lesson.id / "index.html").read_text("utf-8")
        cards = [read_card(site / "cards" / f"{lesson.id}.pdf")]
        cards.append(read_card(site / "cards" / "a4" / f"{lesson.id}.pdf"))
        for notice in course.notices_for(lesson):
            assert notice.short in unescape(page)
            assert all("".join(notice.short.split()) in card for card in cards)
    assert len(list((root / "site" / "cards" / "packs").glob("*.pdf"))) == 4


def read_card(path: Path) -> str:
    """Read the one page of a card, without the spaces that depend on where lines break."""
    (page,) = pypdf.PdfReader(path).pages
    return "".join(page.extract_text().split())
