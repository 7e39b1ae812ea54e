"""The small course as a value, and ways to change one lesson of it."""

from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.course.lesson import Drill, Lesson, Words
from builder.reading.course_folder import read_course

SMALL_COURSE = Path(__file__).parents[1] / "small_course"
DAY = date(2026, 11, 20)

ChangeLesson = Callable[..., Course]


@pytest.fixture(scope="session")
def small_course() -> Course:
    course = read_course(SMALL_COURSE, today=DAY).course
    assert course is not None
    return course


@pytest.fixture
def change_lesson(small_course: Course) -> ChangeLesson:
    """Return the small course with parts of one lesson changed, drill and words among them."""

    def change(lesson_id: str = "plain-count", course: Course = small_course, **parts) -> Course:
        lesson = course.by_id[lesson_id]
        changed = replace(
            lesson,
            drill=replace(lesson.drill, **_take(Drill, parts)),
            words=replace(lesson.words, **_take(Words, parts)),
            **_take(Lesson, parts),
        )
        assert not parts, f"no lesson has {parts}"
        lessons = tuple(changed if other is lesson else other for other in course.lessons)
        return replace(course, lessons=lessons)

    return change


def _take(kind: type, parts: dict[str, object]) -> dict[str, object]:
    names = {field.name for field in fields(kind)}
    return {name: parts.pop(name) for name in list(parts) if name in names}
