"""One lesson of a course by itself, so that no check can see what it doesn't hang on."""

from dataclasses import replace
from datetime import date

from builder.checks.texts import find_named_lessons
from builder.course.course import Course
from builder.course.lesson import Lesson


def take_frame(course: Course) -> Course:
    """Return what every lesson is measured by: settings, vocabulary, traits, bodies, glossary.

    Lessons, notices, the day and all else that would have to be part of a key are left out.
    """
    return replace(
        course,
        lessons=(),
        notices=(),
        unreadable=frozenset(),
        unreadable_notices=frozenset(),
        placement=None,
        ledger=None,
        translations={},
        day=date.min,
        titles_beside={},
    )


def take_excerpt(frame: Course, course: Course, lesson: Lesson) -> Course:
    """Return a frame with one lesson of the course, and the titles that its texts name."""
    titles = course.titles
    named = sorted(find_named_lessons(lesson) & titles.keys())
    beside = {name: titles[name] for name in named}
    return replace(frame, lessons=(lesson,), titles_beside=beside)
