"""The book's chapters are written anew where what is on them is another, and nowhere else."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.publishing.book.lesson_chapter import write_lesson
from builder.publishing.book.lesson_chapters import write_lessons
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import Site
from tests.counting_shelf import CountingShelf

Change = Callable[[Course], Course]


def change_lesson(course: Course, name: str, make: Callable[[Lesson], Lesson]) -> Course:
    lessons = tuple(make(each) if each.id == name else each for each in course.lessons)
    return replace(course, lessons=lessons)


def change_words(course: Course) -> Course:
    return change_lesson(
        course,
        "wide-ribs",
        lambda each: replace(each, words=replace(each.words, ready_when=("It feels easy",))),
    )


def change_title(course: Course) -> Course:
    return change_lesson(course, "short-hold", lambda each: replace(each, title="Short stop"))


def change_notice(course: Course) -> Course:
    notices = (
        replace(each, short="Leave out the hold.") if each.id == "holding" else each
        for each in course.notices
    )
    return replace(course, notices=tuple(notices))


def change_caution(course: Course) -> Course:
    return replace(course, settings=replace(course.settings, caution="Stop when it hurts."))


def test_an_excerpt_makes_the_chapter_that_the_course_makes(small_course: Course) -> None:
    written = {each.id: write_lesson(small_course, each) for each in small_course.lessons}
    assert write_lessons(Excerpts(Site(small_course))) == written


@pytest.mark.parametrize(
    ("change", "fresh"),
    [(change_words, 1), (change_title, 2), (change_notice, 1), (change_caution, 5)],
)
def test_a_change_writes_the_chapters_that_show_it(
    small_course: Course, change: Change, fresh: int
) -> None:
    shelf = CountingShelf()
    before = write_lessons(Excerpts(Site(small_course)), shelf)
    shelf.fresh.clear()
    changed = change(small_course)
    after = write_lessons(Excerpts(Site(changed)), shelf)
    assert after == {each.id: write_lesson(changed, each) for each in changed.lessons}
    assert sum(after[name] != before[name] for name in after) == len(shelf.fresh) == fresh
