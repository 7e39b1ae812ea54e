"""A notice's header: where it moves a lesson to, and what can be wrong with that."""

import pytest

from builder.course.notice import Notice
from builder.reading.course_folder import CourseReading, read_course
from tests.conftest import WriteCourse
from tests.spanish import change, speak_spanish

PATH = "content/notices/on-the-back.md"


def write_notice(write_course: WriteCourse, instead: str, **header: str) -> CourseReading:
    """Read the small course with one notice in which that stands on line 6."""
    rows = {"action": "adapt", "traits": "[supine]", **header}
    head = "\n".join(f"{key}: {value}" for key, value in rows.items())
    text = (
        f"---\ntitle: Flat on the back\n{head}\nconditions: [pregnancy]\n{instead}\n"
        'short: "Pregnant: sit."\nadapt: Do the same breathing sitting.\n'
        "sources: [{title: Sitting, publisher: Common practice, common_practice: true}]\n"
        "reviewed: {by: course lead, on: 2026-10-01}\n---\nSit up.\n"
    )
    return read_course(write_course({PATH: text}))


def take(reading: CourseReading) -> Notice:
    assert reading.course is not None
    return next(each for each in reading.course.notices if each.id == "on-the-back")


def test_a_notice_names_position_and_props(write_course: WriteCourse) -> None:
    reading = write_notice(write_course, "instead: {position: sitting, props: {towel: 2}}")
    instead = take(reading).instead
    assert instead is not None
    assert not reading.findings
    assert instead.position.title == "sitting"
    assert [(use.prop.title, use.count) for use in instead.props] == [("small towel", 2)]


def test_a_notice_that_names_none_moves_nothing(write_course: WriteCourse) -> None:
    assert take(write_notice(write_course, "# nothing")).instead is None


@pytest.mark.parametrize(
    ("instead", "header", "finding"),
    [
        ("instead: {position: siting}", {},
         '6:21: H110 name-unknown: "siting" under "position" is unknown; write '
         '"sitting" if that is meant.'),
        ("instead: {position: sitting, props: {chairs: 1}}", {},
         '6:38: H110 name-unknown: "chairs" under "props" is unknown; '),
        ("instead: {props: {towel: 1}}", {},
         '6:10: H103 key-missing: "position" is missing from "instead"'),
        ("instead: {position: sitting}", {"action": "stop"},
         '6:10: H113 value-out-of-range: only a notice that adapts moves a lesson, and this one '
         'has "stop"; leave instead out, or take action: adapt.'),
        ("instead: {position: supine}", {},
         '6:10: H113 value-out-of-range: "supine" is what the notice warns of, and instead has it '
         "too; name a position and props without it."),
        ("instead: {position: supine}", {"traits": "[floor-transfer]"},
         '6:10: H113 value-out-of-range: "floor-transfer" is what the notice warns of, and'),
        ("instead: {position: sitting, props: {ball: 1}}", {"traits": "[load, supine]"},
         '6:10: H113 value-out-of-range: "load" is what the notice warns of, and'),
        ("instead: {position: sitting}", {"traits": "[]", "everywhere": "true"},
         "7:10: H113 value-out-of-range: a notice that stands everywhere leaves no position to "
         "move to; leave instead out, or give traits in place of everywhere."),
    ],
)  # fmt: skip
def test_what_leads_nowhere_is_told_and_keeps_the_notice_unread(
    write_course: WriteCourse, instead: str, header: dict[str, str], finding: str
) -> None:
    reading = write_notice(write_course, instead, **header)
    told = [str(each) for each in reading.findings if str(each).startswith(PATH)]
    assert [each for each in told if each.startswith(f"{PATH}:{finding}")], told
    assert reading.course is not None
    assert reading.course.unreadable_notices == {"on-the-back"}


def test_a_translation_says_the_same_place_in_its_own_words(write_course: WriteCourse) -> None:
    root = speak_spanish(write_course())
    change(root / PATH, "adapt:", "instead: {position: sitting, props: {towel: 1}}\nadapt:")
    reading = read_course(root)
    assert not reading.findings  # the translation repeats nothing of it
    instead = take(reading.in_language("es")).instead
    assert instead is not None
    assert (instead.position.id, instead.position.title) == ("sitting", "en una silla")
    assert instead.props[0].prop.title == "toalla pequeña"


def test_a_translation_may_not_move_a_lesson_itself(write_course: WriteCourse) -> None:
    root = speak_spanish(write_course())
    path = root / PATH.replace(".md", ".es.md")
    change(path, "adapt:", "instead: {position: sitting}\nadapt:")
    assert any('"instead"' in str(each) for each in read_course(root).findings)
