"""What a site has besides its cards is made anew where what is on it is another."""

from dataclasses import replace

import pytest

from builder.course.course import Course
from builder.publishing.bare import bare_course
from builder.publishing.site.cards import make_chart
from builder.work.digest import spell
from tests.counting_shelf import CountingShelf


@pytest.mark.parametrize("name", ["air", "demand", "map"])
def test_words_that_are_on_no_chart_print_none_and_a_title_prints_it(
    small_course: Course, name: str
) -> None:
    shelf = CountingShelf()

    def make(course: Course) -> bytes:
        shelf.fresh.clear()
        return make_chart(course, (name, "a4"), spell(bare_course(course)), shelf)

    first = make(small_course)
    assert len(shelf.fresh) == 2
    (lesson, *others) = small_course.lessons
    words = replace(lesson.words, ready_when=("It feels easy",))
    changed = replace(small_course, lessons=(replace(lesson, words=words), *others))
    assert (make(changed), len(shelf.fresh)) == (first, 1)
    assert (make(changed), len(shelf.fresh)) == (first, 0)
    caution = replace(changed.settings, caution="Stop when it hurts.")
    assert make(replace(changed, settings=caution)) != first
    assert len(shelf.fresh) == 2
