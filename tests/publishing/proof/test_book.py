"""Proof of a book: take a word out of a sound one, and it must be missed."""

import zipfile
from datetime import UTC, datetime
from io import BytesIO

import pytest

from builder.course.course import Course
from builder.publishing.book.book import make_book
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import Site
from builder.publishing.proof.book import find_book_faults
from builder.publishing.site.book import write_book
from tests.counting_shelf import CountingShelf
from tests.publishing.book.opened import open_book


@pytest.fixture(scope="module")
def content(small_course: Course) -> bytes:
    return make_book(small_course, b"", datetime(2026, 11, 25, tzinfo=UTC))


def change(content: bytes, file: str, old: str, new: str) -> bytes:
    """Return a book with one text in one chapter replaced."""
    target = BytesIO()
    with zipfile.ZipFile(target, "w") as book:
        for name, part in open_book(content).files.items():
            if name == f"EPUB/{file}":
                assert old in part.decode()
                book.writestr(name, part.decode().replace(old, new))
            else:
                book.writestr(name, part)
    return target.getvalue()


def test_a_sound_book_has_no_findings(content: bytes, small_course: Course) -> None:
    assert find_book_faults(small_course, content) == ()


def test_every_notice_of_every_lesson_is_missed(content: bytes, small_course: Course) -> None:
    for lesson in small_course.lessons:
        for notice in small_course.notices_for(lesson):
            lost = change(content, f"lesson-{lesson.id}.xhtml", notice.short, "")
            faults = find_book_faults(small_course, lost)
            lacks = [fault.fact for fault in faults if fault.rule.id == "C105"]
            assert any(f"notice {notice.id}" in fact for fact in lacks), notice.id


def test_every_stop_sign_of_every_lesson_is_missed(content: bytes, small_course: Course) -> None:
    signs = [(one, sign) for one in small_course.lessons for sign in one.words.stop_if]
    assert signs
    for lesson, sign in signs:
        lost = change(content, f"lesson-{lesson.id}.xhtml", f"<li>{sign}</li>", "")
        (fault,) = find_book_faults(small_course, lost)
        assert fault.rule.name == "text-lost"
        assert "the finished chapter of the book lacks the stop if 1" in fault.fact


def test_a_line_of_a_notice_lost_from_the_safety_chapter_is_missed(
    content: bytes, small_course: Course
) -> None:
    for notice in small_course.notices:
        line = notice.long.strip().split("\n")[0]
        lost = change(content, "safety.xhtml", line, "")
        faults = find_book_faults(small_course, lost)
        assert any(fault.rule.id == "C105" and line in fault.fact for fault in faults)


def test_the_caution_lost_from_the_safety_chapter_is_missed(
    content: bytes, small_course: Course
) -> None:
    caution = small_course.settings.caution
    lost = change(content, "safety.xhtml", caution, "")
    facts = [fault.fact for fault in find_book_faults(small_course, lost)]
    assert "the finished book's safety chapter lacks the course's caution" in facts


def test_a_chapter_that_is_no_xml_lacks_everything(content: bytes, small_course: Course) -> None:
    broken = change(content, "lesson-short-hold.xhtml", "</body>", "")
    facts = [fault.fact for fault in find_book_faults(small_course, broken)]
    assert any("lacks the step 1" in fact for fact in facts)


@pytest.mark.parametrize("target", ["lesson-gone.xhtml", "safety.xhtml#notice-gone", "#gone"])
def test_a_link_to_nowhere_is_found(content: bytes, small_course: Course, target: str) -> None:
    lost = change(content, "title.xhtml", "<p>", f'<p><a href="{target}">x</a>')
    (fault,) = {fault.fact for fault in find_book_faults(small_course, lost)}
    assert fault == f'"{target}" leads nowhere in the book'


def test_a_book_with_a_fault_is_not_written(
    content: bytes, small_course: Course, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("book") / "course.epub"
    shelf = CountingShelf()
    assert write_book(Excerpts(Site(small_course)), b"", path, shelf) == ()
    assert path.is_file()


def test_a_chapter_that_lost_words_is_judged_anew_though_its_lesson_is_as_before(
    content: bytes, small_course: Course
) -> None:
    excerpts, shelf = Excerpts(Site(small_course)), CountingShelf()
    assert find_book_faults(small_course, content, excerpts, shelf) == ()
    assert len(shelf.fresh) == len(small_course.lessons)
    shelf.fresh.clear()
    assert find_book_faults(small_course, content, excerpts, shelf) == ()
    assert shelf.fresh == []
    lesson = small_course.by_id["short-hold"]
    sign = f"<li>{lesson.words.stop_if[0]}</li>"
    lost = change(content, "lesson-short-hold.xhtml", sign, "")
    for fresh in (1, 0):  # what was found is told again by every run
        (fault,) = find_book_faults(small_course, lost, excerpts, shelf)
        assert (fault.rule.name, len(shelf.fresh)) == ("text-lost", fresh)
        shelf.fresh.clear()
