"""All checks of a course in one run."""

from builder.checks.allowances import drop_allowed, find_faulty_allowances
from builder.checks.registry import CHECKS
from builder.course.course import Course
from builder.findings import Finding, sort_findings


def check_course(course: Course) -> tuple[Finding, ...]:
    """Return what every check finds, in a fixed order, each once, allowed ones left out."""
    found = tuple(finding for check in CHECKS for finding in check.find(course))
    faulty = find_faulty_allowances(course, found)
    translated = [
        finding
        for translation in course.translations.values()
        for finding in _check_words(translation)
    ]
    return sort_findings((*drop_allowed(course, found), *faulty, *translated))


def _check_words(translation: Course) -> tuple[Finding, ...]:
    """Return what is found in the words of another language; the rest is the original's."""
    readers = [check for check in CHECKS if check.reads_words]
    found = tuple(finding for check in readers for finding in check.find(translation))
    faulty = find_faulty_allowances(translation, found)
    return (*drop_allowed(translation, found), *faulty)
