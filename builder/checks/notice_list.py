"""The course's own list of its notices: a file that gets lost is missed."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.names import suggest
from builder.findings import Finding


def find_lost_notices(course: Course) -> Iterator[Finding]:
    """Report notices that the course lists and doesn't have."""
    there = {notice.id for notice in course.notices} | course.unreadable_notices
    listed = course.settings.notices or ()
    for index, name in enumerate(listed):
        if name not in there:
            unlisted = there.difference(listed)
            yield rules.NOTICE_LOST.at(
                course.settings.at(f"notices.{index}"),
                f'the notice "{name}" is gone, so no page and no card shows it',
                suggest(name, unlisted) or f"put notices/{name}.md back, or take it off this list",
            )


def find_unlisted_notices(course: Course) -> Iterator[Finding]:
    """Report notices that a course which keeps a list doesn't list."""
    listed = course.settings.notices
    if listed is None:
        return
    for notice in course.notices:
        if notice.id not in listed:
            yield rules.NOTICE_UNLISTED.at(
                notice.at("title"),
                f'{course.settings.path} doesn\'t list "{notice.id}", so nobody would miss it',
                "add it to notices there",
            )
