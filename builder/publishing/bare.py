"""Parts of a course without the places at which they are written, which nothing printed tells."""

from dataclasses import replace

from builder.course.course import Course, Settings
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.findings import Place

_NOWHERE = Place("")


def bare_lesson(lesson: Lesson) -> Lesson:
    """Return a lesson that is the same wherever its values stand in its file."""
    return replace(lesson, positions={})


def bare_notice(notice: Notice) -> Notice:
    """Return a notice that is the same wherever it stands."""
    return replace(notice, place=_NOWHERE, positions={}, long_line=1)


def bare_settings(settings: Settings) -> Settings:
    """Return settings that are the same wherever they stand in the course file."""
    return replace(settings, positions={})


def bare_course(course: Course) -> Course:
    """Return a course, its translations too, that is the same wherever its values stand."""
    return replace(
        course,
        settings=bare_settings(course.settings),
        lessons=tuple(map(bare_lesson, course.lessons)),
        notices=tuple(map(bare_notice, course.notices)),
        translations={tag: bare_course(each) for tag, each in course.translations.items()},
    )
