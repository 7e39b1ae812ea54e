"""What was found in single lessons before: the same lesson under the same frame has the same."""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from builder.course.course import Course
from builder.findings import Finding
from builder.rules.plain import make_rows, take_rows
from builder.work.kept import Kept, make_key
from builder.work.plain import make_plain
from builder.work.share import share
from builder.work.tool import digest_tool


@dataclass(frozen=True, slots=True)
class FindingsShelf:
    """Findings of lessons, by all that a check of one lesson can see."""

    kept: Kept
    lesson_keys: Mapping[str, str]
    """Lesson id to a digest of all that a lesson is; for others, it is worked out."""

    def find_all(
        self,
        frame: str,
        excerpts: Sequence[Course],
        look: Callable[[Course], tuple[Finding, ...]],
    ) -> list[tuple[Finding, ...]]:
        """Return what is found in each excerpt of one lesson, as it was kept or by looking."""
        keys = [self._make_key(frame, excerpt) for excerpt in excerpts]
        kept: dict[str, Any] = {key: self.kept.get(key) for key in keys}
        missing = [place for place, key in enumerate(keys) if kept[key] is None]
        looked = share(look, [excerpts[place] for place in missing])
        for place, found in zip(missing, looked, strict=True):
            kept[keys[place]] = make_rows(found)
            self.kept.put(keys[place], kept[keys[place]])
        return [take_rows(kept[key]) for key in keys]

    def _make_key(self, frame: str, excerpt: Course) -> str:
        (lesson,) = excerpt.lessons
        said = self.lesson_keys.get(lesson.id) or _spell(lesson)
        return make_key("findings", frame, said, _spell(excerpt.titles_beside))


def key_frame(frame: Course, names: Iterable[str]) -> str:
    """Return a digest of the tool, of some checks by name, and of what they measure lessons by."""
    return make_key("frame", digest_tool(), *names, _spell(frame))


def _spell(value: object) -> str:
    return json.dumps(make_plain(value), ensure_ascii=False)
