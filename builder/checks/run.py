"""All checks of a course in one run."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.checks.allowances import drop_allowed, find_faulty_allowances
from builder.checks.excerpt import take_excerpt, take_frame
from builder.checks.kept_findings import FindingsShelf, key_frame
from builder.checks.registry import CHECKS, Check
from builder.course.course import Course
from builder.findings import Finding, sort_findings
from builder.work.share import share


def check_course(course: Course, shelf: FindingsShelf | None = None) -> tuple[Finding, ...]:
    """Return what every check finds, in a fixed order, each once, allowed ones left out.

    What hangs on one lesson alone is taken from the shelf, where there is one.
    """
    found = [*_check(course, CHECKS, shelf)]
    readers = [check for check in CHECKS if check.reads_words]
    others = shelf and replace(shelf, lesson_keys={})  # a lesson in other words is another
    for translation in course.translations.values():  # the rest is the original's
        found += _check(translation, readers, others)
    if shelf:
        shelf.kept.save()
    return sort_findings(found)


def _check(
    course: Course, checks: Sequence[Check], shelf: FindingsShelf | None
) -> tuple[Finding, ...]:
    """Return what some checks find in one language."""
    bare = replace(course, lessons=())  # what is no lesson's
    across = [
        finding for check in checks for finding in check.find(bare if check.by_lesson else course)
    ]
    alone = [check for check in checks if check.by_lesson]
    found = (*across, *_find_by_lesson(course, alone, shelf))
    return (*drop_allowed(course, found), *find_faulty_allowances(course, found))


def _find_by_lesson(
    course: Course, checks: Sequence[Check], shelf: FindingsShelf | None
) -> Iterator[Finding]:
    """Find what hangs on one lesson alone, lesson by lesson."""

    def look(excerpt: Course) -> tuple[Finding, ...]:
        return tuple(finding for check in checks for finding in check.find(excerpt))

    frame = take_frame(course)
    key = key_frame(frame, (check.find.__qualname__ for check in checks)) if shelf else ""
    excerpts = [take_excerpt(frame, course, lesson) for lesson in course.lessons]
    found = shelf.find_all(key, excerpts, look) if shelf else share(look, excerpts)
    for findings in found:
        yield from findings
