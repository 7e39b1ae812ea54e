"""Pages that are kept between builds: what is made anew, counted, and that nothing is stale."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from builder.course.course import Course
from builder.course.dose import TimedDose
from builder.course.lesson import Passage
from builder.publishing.pages.all_pages import make_pages
from builder.publishing.pages.drawn_figure import FigureOrder
from builder.publishing.pages.links import Site
from builder.publishing.pages.outline import outline_site
from builder.reading.course_folder import CourseReading, read_course
from builder.sums.plain_figure import make_plain_figure
from builder.work.store import ContentStore
from tests.conftest import SMALL_COURSE, WriteCourse
from tests.counting_shelf import CountingShelf

ROOT = Path(__file__).parents[3]
"""Of the repository, whose course has enough lessons for copies to take part."""
SEATED = make_plain_figure("sitting", (), ())


@pytest.fixture(scope="module")
def reading() -> CourseReading:
    return read_course(SMALL_COURSE)


@pytest.fixture(scope="module")
def course(reading: CourseReading) -> Course:
    assert reading.course is not None
    return reading.course


def change(course: Course, name: str, **changes: Any) -> Course:
    lessons = (replace(each, **changes) if each.id == name else each for each in course.lessons)
    return replace(course, lessons=tuple(lessons))


def count_made(reading: CourseReading, before: Course, after: Course) -> tuple[int, int]:
    """Return how many pages and figures of a changed course are made after those of the old."""
    shelf = CountingShelf()
    make_pages(Site(before), reading.pages, shelf)
    shelf.fresh.clear()
    made = make_pages(Site(after), reading.pages, shelf)
    assert made == make_pages(Site(after), reading.pages)
    figures = sum(shelf.pieces[key].startswith(b"[") for key in shelf.fresh)
    return len(shelf.fresh) - figures, figures


def test_nothing_is_made_where_nothing_changed(reading: CourseReading, course: Course) -> None:
    assert count_made(reading, course, course) == (0, 0)


def test_a_lesson_s_words_change_its_own_page_alone(reading: CourseReading, course: Course) -> None:
    words = replace(course.by_id["short-hold"].words, steps=(Passage("Wait.", 1),))
    changed = change(course, "short-hold", words=words)
    assert count_made(reading, course, changed) == (1, 0)


def test_a_summary_changes_the_page_of_its_strand_too(
    reading: CourseReading, course: Course
) -> None:
    changed = change(course, "short-hold", summary="Hold it, and let go.")
    assert count_made(reading, course, changed) == (2, 0)


def test_another_figure_is_drawn_once_however_many_lessons_show_it(
    reading: CourseReading, course: Course
) -> None:
    changed = change(course, "short-hold", figure=SEATED)
    changed = change(changed, "wide-ribs", figure=make_plain_figure("sitting", (), ()))
    assert count_made(reading, course, changed) == (2, 1)


def test_a_caution_s_words_change_every_page_that_has_it(
    reading: CourseReading, course: Course
) -> None:
    notice = next(each for each in course.notices if not each.everywhere)
    carriers = [lesson for lesson in course.lessons if notice in course.notices_for(lesson)]
    others = (
        replace(each, short="Stop now.") if each == notice else each for each in course.notices
    )
    pages, figures = count_made(reading, course, replace(course, notices=tuple(others)))
    assert figures == 0
    assert pages >= len(carriers) > 0


def test_a_course_s_caution_changes_every_page(reading: CourseReading, course: Course) -> None:
    settings = replace(course.settings, caution="Ask somebody who knows you.")
    made = make_pages(Site(course), reading.pages)
    kept = [path for path in made if path.endswith(".md") and not path.startswith("authors/")]
    assert count_made(reading, course, replace(course, settings=settings)) == (len(kept), 0)


def test_words_that_only_a_lesson_s_page_has_are_not_in_the_outline(course: Course) -> None:
    key = outline_site(Site(course)).key
    lesson = course.by_id["short-hold"]
    silent = replace(lesson.words, steps=(), set_up=(), coach_notes=(), stop_if=(), cues=None)
    assert outline_site(Site(change(course, "short-hold", words=silent))).key == key


@pytest.mark.parametrize("field", ["title", "level", "drill", "builds_on", "was", "ready_when"])
def test_what_lists_of_lessons_show_is_in_the_outline(course: Course, field: str) -> None:
    lesson = course.by_id["short-hold"]
    other: dict[str, object] = {
        "title": "Another",
        "level": 9,
        "drill": replace(lesson.drill, dose=TimedDose(59)),
        "builds_on": (),
        "was": ("older",),
        "ready_when": replace(lesson.words, ready_when=("a",) * 7),
    }
    name = "words" if field == "ready_when" else field
    changed = change(course, "short-hold", **{name: other[field]})
    assert outline_site(Site(changed)).key != outline_site(Site(course)).key


def test_a_damaged_cache_and_none_give_the_same_pages(
    reading: CourseReading, course: Course, write_course: WriteCourse
) -> None:
    shelf = ContentStore(write_course() / ".cache")
    made = make_pages(Site(course), reading.pages, shelf)
    for path in shelf.folder.rglob("*"):
        if path.is_file():
            path.write_bytes(path.read_bytes()[:-1])
    assert make_pages(Site(course), reading.pages, shelf) == made
    assert make_pages(Site(course), reading.pages) == made


def test_a_figure_that_was_drawn_before_is_kept_for_other_words(
    reading: CourseReading, course: Course
) -> None:
    drawn = change(course, "short-hold", figure=SEATED)
    renamed = change(drawn, "short-hold", summary="Hold it.")
    assert count_made(reading, drawn, renamed) == (2, 0)


def test_a_figure_is_drawn_again_in_another_language() -> None:
    assert FigureOrder(SEATED, "en-GB").key != FigureOrder(SEATED, "es").key


def test_copies_of_the_process_make_the_same_pages(tmp_path: Path) -> None:
    reading = read_course(ROOT)
    assert reading.course is not None
    shared = make_pages(Site(reading.course), reading.pages, ContentStore(tmp_path))
    with one_core():
        assert make_pages(Site(reading.course), reading.pages) == shared


@contextmanager
def one_core() -> Iterator[None]:
    """Work on one core, where no copy of the process takes part."""
    if sys.platform != "linux":
        pytest.skip("copies are made on Linux only")
    cores = os.sched_getaffinity(0)
    os.sched_setaffinity(0, {min(cores)})
    try:
        yield
    finally:
        os.sched_setaffinity(0, cores)
