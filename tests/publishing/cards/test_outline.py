"""Outlines: whatever shapes a card shapes its outline, and nothing else matters to a card."""

from dataclasses import fields, replace
from datetime import date

import pytest

from builder.course.audience import Audience
from builder.course.course import Course, Settings
from builder.course.lesson import Lesson, Words
from builder.publishing.cards.face import face_cards
from builder.publishing.cards.outline import Outliner
from builder.sums.paper import PAPERS
from builder.work.digest import spell

LESSON = "long-out"


def outline(course: Course) -> str:
    return Outliner(course).outline(course.by_id[LESSON])


def face(course: Course) -> str:
    faces = face_cards(course, [course.by_id[LESSON]], Audience.COACH, [PAPERS["a4"]])
    return repr(faces["a4"][0])


def change(value: object) -> object:
    """Return another value of the same kind."""
    if isinstance(value, str):
        return f"{value}x"
    if isinstance(value, int | float):
        return value + 1
    if isinstance(value, tuple):
        return (*value, "x")
    return "x"


def with_lesson(course: Course, lesson: Lesson) -> Course:
    lessons = tuple(lesson if old.id == lesson.id else old for old in course.lessons)
    return replace(course, lessons=lessons)


@pytest.mark.parametrize("name", [f.name for f in fields(Settings) if f.name != "positions"])
def test_every_setting_of_the_course_is_in_the_outline(small_course: Course, name: str) -> None:
    settings = small_course.settings
    other = replace(settings, **{name: change(getattr(settings, name))})
    assert outline(replace(small_course, settings=other)) != outline(small_course)


@pytest.mark.parametrize("name", [field.name for field in fields(Words)])
def test_every_word_of_a_lesson_is_in_its_outline(small_course: Course, name: str) -> None:
    lesson = small_course.by_id[LESSON]
    words = replace(lesson.words, **{name: change(getattr(lesson.words, name))})
    other = with_lesson(small_course, replace(lesson, words=words))
    assert outline(other) != outline(small_course)


def test_every_other_value_of_a_lesson_is_in_its_outline(small_course: Course) -> None:
    lesson = small_course.by_id[LESSON]
    told = outline(small_course)
    for field in fields(Lesson):
        if field.name != "positions":
            assert f"{field.name}={spell(getattr(lesson, field.name))}" in told


def test_a_notice_that_a_lesson_carries_is_in_its_outline(small_course: Course) -> None:
    carried = {notice.id for notice in small_course.notices_for(small_course.by_id[LESSON])}
    assert carried
    for name in ("short", "adapt", "title"):
        notices = tuple(
            replace(notice, **{name: "Something else."}) if notice.id in carried else notice
            for notice in small_course.notices
        )
        assert outline(replace(small_course, notices=notices)) != outline(small_course)


def test_the_title_of_a_lesson_that_is_named_is_in_the_outline(small_course: Course) -> None:
    lesson = small_course.by_id[LESSON]
    for name in (*lesson.builds_on, *lesson.harder, *lesson.easier):
        other = with_lesson(small_course, replace(small_course.by_id[name], title="Another"))
        assert face(other) != face(small_course)
        assert outline(other) != outline(small_course)


def test_what_is_in_no_outline_shapes_no_card(small_course: Course) -> None:
    # All that the course has besides is taken away or swapped: the card must stay the same.
    lesson = small_course.by_id[LESSON]
    near = {LESSON, *lesson.builds_on}
    words = small_course.by_id["short-hold"].words
    lessons = tuple(
        each if each.id in near else replace(each, words=words, summary="-", measures=(), level=9)
        for each in small_course.lessons
    )
    bare = replace(
        small_course,
        lessons=lessons,
        glossary={},
        placement=None,
        ledger=None,
        translations={},
        unreadable=frozenset({"x"}),
        day=date(2001, 1, 1),
    )
    assert outline(bare) == outline(small_course)
    assert face(bare) == face(small_course)
