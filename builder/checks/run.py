"""All checks of a course in one run."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.checks.allowances import drop_allowed, find_faulty_allowances
from builder.checks.excerpt import take_excerpt, take_frame
from builder.checks.registry import CHECKS, Check
from builder.course.course import Course
from builder.findings import Finding, sort_findings


def check_course(course: Course) -> tuple[Finding, ...]:
    """Return what every check finds, in a fixed order, each once, allowed ones left out."""
    found = [*_check(course, CHECKS)]
    readers = [check for check in CHECKS if check.reads_words]
    for translation in course.translations.values():  # the rest is the original's
        found += _check(translation, readers)
    return sort_findings(found)


def _check(course: Course, checks: Sequence[Check]) -> tuple[Finding, ...]:
    """Return what some checks find in one language."""
    found = (*_find_across(course, checks), *_find_by_lesson(course, checks))
    return (*drop_allowed(course, found), *find_faulty_allowances(course, found))


def _find_across(course: Course, checks: Sequence[Check]) -> Iterator[Finding]:
    """Find what hangs on several lessons, and what is no lesson's."""
    bare = replace(course, lessons=())
    for check in checks:
        yield from check.find(bare if check.by_lesson else course)


def _find_by_lesson(course: Course, checks: Sequence[Check]) -> Iterator[Finding]:
    """Find what hangs on one lesson alone, lesson by lesson."""
    frame = take_frame(course)
    for lesson in course.lessons:
        excerpt = take_excerpt(frame, course, lesson)
        for check in checks:
            if check.by_lesson:
                yield from check.find(excerpt)
