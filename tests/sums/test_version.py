"""Version codes: what changes on a card changes its code, and nothing else does."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.figure import View
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Review
from builder.course.release import Ledger, Release
from builder.course.tempo import Tempo
from builder.reading.course_folder import read_course
from builder.sums.version import LENGTH, SIGNS, find_unreleased, find_version
from tests.conftest import SMALL_COURSE

ROOT = Path(__file__).parents[2]
LESSON = "short-hold"
DAY = date(2026, 10, 2)


@pytest.fixture(scope="module")
def small_course() -> Course:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    return course


def code_of(course: Course, audience: Audience = Audience.CLIENT, name: str = LESSON) -> str:
    return find_version(course, course.by_id[name], audience)


def with_lesson(course: Course, lesson: Lesson) -> Course:
    lessons = tuple(lesson if each.id == lesson.id else each for each in course.lessons)
    return replace(course, lessons=lessons)


def altered(course: Course, part: str = "", **changes: Any) -> Course:
    lesson = course.by_id[LESSON]
    if part:
        changes = {part: replace(getattr(lesson, part), **changes)}
    return with_lesson(course, replace(lesson, **changes))


def test_a_code_is_five_signs_that_nobody_takes_for_others(small_course: Course) -> None:
    assert not set("ILOU") & set(SIGNS)
    for lesson in small_course.lessons:
        for audience in Audience:
            code = find_version(small_course, lesson, audience)
            assert len(code) == LENGTH
            assert set(code) <= set(SIGNS)


@pytest.mark.parametrize(
    ("part", "changes"),
    [
        ("", {"title": "Another hold"}),
        ("", {"summary": "Another line."}),
        ("", {"level": 3}),
        ("", {"easier": ()}),
        ("drill", {"tempo": Tempo.parse("3-2-3-2")}),
        ("drill", {"dose": Dose(2, 4, 40)}),
        ("drill", {"dose": Dose(2, 5, 30)}),
        ("drill", {"props": ()}),
        ("words", {"steps": (Passage("Only this.", 9),)}),
        ("words", {"stop_if": ("You feel ill",)}),
        ("words", {"ready_when": ("Another sign",)}),
        ("words", {"watch_for": ()}),
        ("words", {"cues": None}),
    ],
)
def test_what_a_card_says_is_in_its_code(
    small_course: Course, part: str, changes: dict[str, Any]
) -> None:
    changed = altered(small_course, part, **changes)
    for audience in Audience:
        assert code_of(changed, audience) != code_of(small_course, audience)


@pytest.mark.parametrize(
    ("part", "changes"),
    [
        ("", {"reviewed": Review("somebody else", date(2026, 10, 20))}),
        ("", {"path": "content/lessons/elsewhere/short-hold.md"}),
        ("", {"was": ("old-name",)}),
        ("", {"allowed": {"W101": "for a reason"}}),
    ],
)
def test_what_no_card_says_is_not(small_course: Course, part: str, changes: dict[str, Any]) -> None:
    assert code_of(altered(small_course, part, **changes)) == code_of(small_course)


def test_what_the_figure_shows_is_in_the_code() -> None:
    starter = read_course(ROOT).course
    assert starter is not None
    lesson = starter.by_id["belly-breath"]
    figure = lesson.figure
    assert figure is not None
    bent = replace(figure.inhale.pose, spine=replace(figure.inhale.pose.spine, nod=12.0))
    figures = [
        figure,
        replace(figure, view=View.ABOVE),
        replace(figure, inhale=replace(figure.inhale, pose=bent)),
        None,
    ]
    changed = [with_lesson(starter, replace(lesson, figure=each)) for each in figures]
    codes = [code_of(course, name=lesson.id) for course in changed]
    assert codes[0] == code_of(starter, name=lesson.id)
    assert len(set(codes)) == len(codes)


def test_white_space_and_lines_of_the_file_mean_nothing(small_course: Course) -> None:
    words = small_course.by_id[LESSON].words
    steps = tuple(Passage(each.text.replace(" ", "\n  "), each.line + 7) for each in words.steps)
    assert code_of(altered(small_course, "words", steps=steps)) == code_of(small_course)


def test_coach_notes_are_on_the_coachs_card_only(small_course: Course) -> None:
    changed = altered(small_course, "words", coach_notes=(Passage("Look again.", 30),))
    assert code_of(changed) == code_of(small_course)
    assert code_of(changed, Audience.COACH) != code_of(small_course, Audience.COACH)


def test_a_notice_marks_every_card_that_carries_it_and_no_other(small_course: Course) -> None:
    notices = tuple(
        replace(each, short="Another caution.") if each.id == "holding" else each
        for each in small_course.notices
    )
    changed = replace(small_course, notices=notices)
    marked = {
        lesson.id
        for lesson in small_course.lessons
        if code_of(changed, name=lesson.id) != code_of(small_course, name=lesson.id)
    }
    carriers = {
        lesson.id
        for lesson in small_course.lessons
        if "holding" in {notice.id for notice in small_course.notices_for(lesson)}
    }
    assert marked == carriers
    assert 0 < len(carriers) < len(small_course.lessons)


def test_the_newest_release_counts(small_course: Course) -> None:
    code = code_of(small_course)

    def unreleased(*codes: str) -> bool:
        rows = tuple(Release(LESSON, Audience.CLIENT, each, DAY, "Why.") for each in codes)
        course = replace(small_course, ledger=Ledger(rows))
        found = {(card.lesson.id, card.audience) for card in find_unreleased(course)}
        return (LESSON, Audience.CLIENT) in found

    assert unreleased()
    assert not unreleased("00000", code)
    assert unreleased(code, "00000")
