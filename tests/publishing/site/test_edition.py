"""An edition: of which pages parts may be laid aside while the host makes them."""

from dataclasses import replace

import pytest

from builder.publishing.pages.asides import holds_aside
from builder.publishing.pages.links import MAP, lesson_page, rule_page
from builder.publishing.site.edition import Edition, make_edition
from builder.reading.course_folder import CourseReading, read_course
from builder.reading.pages import Page
from tests.conftest import SMALL_COURSE


def edit(reading: CourseReading, words: str) -> Edition:
    page = Page("note.md", "Note", "", f"# Note\n\n{words}\n", 1)
    return make_edition(replace(reading, pages=(*reading.pages, page)), "content", ())


def test_drawings_of_ours_may_be_laid_aside_on_every_page() -> None:
    edition = edit(read_course(SMALL_COURSE), "Nothing is drawn here.")
    assert {MAP, "note.md"} <= set(edition.list_safe_pages())


@pytest.mark.parametrize(
    "words", ['```\n<svg xmlns="x"></svg>\n```', '`<span data-tl-aside="0"></span>`']
)
def test_where_authors_write_something_alike_only_lessons_have_asides(words: str) -> None:
    reading = read_course(SMALL_COURSE)
    assert reading.course
    lessons = {lesson_page(lesson) for lesson in reading.course.lessons}
    assert set(edit(reading, words).list_safe_pages()) == lessons


def test_examples_on_pages_of_rules_are_never_taken_for_drawings_of_ours() -> None:
    edition = edit(read_course(SMALL_COURSE), "Nothing is drawn here.")
    assert holds_aside(str(edition.files[rule_page("U104")]))
    assert rule_page("U104") not in edition.list_safe_pages()


def test_words_of_notices_count_as_well() -> None:
    reading = read_course(SMALL_COURSE)
    assert reading.course
    first, *others = reading.course.notices
    drawn = replace(first, long='<svg xmlns="x"></svg>')
    course = replace(reading.course, notices=(drawn, *others))
    assert make_edition(replace(reading, course=course), "content", ()).has_own_asides
