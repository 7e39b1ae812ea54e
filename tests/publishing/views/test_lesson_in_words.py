"""A lesson as pages and cards say it."""

from builder.course.course import Course
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import lesson_address, view_lesson


def test_the_strongest_notice_comes_first(small_course: Course) -> None:
    view = view_lesson(small_course, small_course.by_id["short-hold"], no_link)
    assert [notice.action_word for notice in view.notices] == [
        *("Ask first", "Adapt"),
        *("Note", "Note", "Note"),
    ]
    assert view.notices[0].short == "High blood pressure: ask your clinician before you hold."


def test_a_fault_is_parted_from_its_cure(small_course: Course) -> None:
    view = view_lesson(small_course, small_course.by_id["short-hold"], no_link)
    assert [(item.fault, item.cure) for item in view.watch_for] == [
        ("The throat locks", "hold for less")
    ]


def test_neighbours_come_with_titles_and_addresses(small_course: Course) -> None:
    view = view_lesson(small_course, small_course.by_id["short-hold"], lambda name: f"/{name}")
    assert [(name.title, name.address) for name in view.easier] == [("Plain count", "/plain-count")]


def test_the_address_is_the_page_under_the_course_address(small_course: Course) -> None:
    lesson = small_course.by_id["short-hold"]
    assert lesson_address(small_course, lesson) == "https://small.example/lessons/count/short-hold/"
