"""What was found in single lessons before: the same lesson under the same frame has the same."""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from builder.course.course import Course
from builder.findings import Finding
from builder.rules.plain import make_rows, take_rows
from builder.work.kept import Kept, make_key
from builder.work.plain import make_plain
from builder.work.tool_state import describe_tool_here


@dataclass(frozen=True, slots=True)
class FindingsShelf:
    """Findings of lessons, by all that a check of one lesson can see."""

    kept: Kept
    lesson_keys: Mapping[str, str]
    """Lesson id to a digest of all that a lesson is; for others, it is worked out."""

    def find(
        self, frame: str, excerpt: Course, look: Callable[[Course], Iterable[Finding]]
    ) -> tuple[Finding, ...]:
        """Return what is found in an excerpt of one lesson, as it was kept or by looking."""
        (lesson,) = excerpt.lessons
        said = self.lesson_keys.get(lesson.id) or _spell(lesson)
        key = make_key("findings", frame, said, _spell(excerpt.titles_beside))
        rows = self.kept.get(key)
        if rows is not None:
            return take_rows(rows)
        found = tuple(look(excerpt))
        self.kept.put(key, make_rows(found))
        return found


def key_frame(frame: Course, names: Iterable[str]) -> str:
    """Return a digest of the tool, of some checks by name, and of what they measure lessons by."""
    return make_key("frame", describe_tool_here(), *names, _spell(frame))


def _spell(value: object) -> str:
    return json.dumps(make_plain(value), ensure_ascii=False)
