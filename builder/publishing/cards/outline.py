"""Outlines: all that a lesson's card may say, told by the course's own values and not yet worded.

To word and draw a card takes as long as to print a tenth of it. Its outline is there at once, so
that it can be known by its outline whether it was printed before.
"""

import re
from collections.abc import Iterator
from functools import cached_property

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.publishing.bare import bare_lesson, bare_notice, bare_settings
from builder.work.digest import spell

_MENTION = re.compile(r"[\w-]+")
"""Whatever may be the id of a lesson."""


class Outliner:
    """Outlines the lessons of one course, each once."""

    def __init__(self, course: Course) -> None:
        self._course = course
        self._notices: dict[str, str] = {}
        self._outlines: dict[str, str] = {}

    def outline(self, lesson: Lesson) -> str:
        """Return all that a card or poster of a lesson of the course may be made from."""
        if lesson.id not in self._outlines:
            self._outlines[lesson.id] = self._outline(lesson)
        return self._outlines[lesson.id]

    def _outline(self, lesson: Lesson) -> str:
        course = self._course
        own = "\n".join(
            (spell(bare_lesson(lesson)), *map(self._spell_notice, course.notices_for(lesson)))
        )
        after = tuple(other.id for other in course.builds_into(lesson.id))
        before = course.graph[lesson.id]
        return "\n".join(
            (
                self._frame,
                own,
                spell((after, before)),
                spell(tuple(course.demands[name] for name in (lesson.id, *before))),
                *self._list_titles(own, after),
            )
        )

    @cached_property
    def _frame(self) -> str:
        """Return what every lesson of the course shares."""
        return spell((bare_settings(self._course.settings), self._course.reference_bodies))

    def _spell_notice(self, notice: Notice) -> str:
        if notice.id not in self._notices:
            self._notices[notice.id] = spell(bare_notice(notice))
        return self._notices[notice.id]

    def _list_titles(self, own: str, after: tuple[str, ...]) -> Iterator[str]:
        """Yield the titles of all lessons that are named in any way, a few too many perhaps."""
        titles = self._course.titles
        for name in dict.fromkeys((*_MENTION.findall(own), *after)):
            if name in titles:
                yield f"{name} {titles[name]!r}"
