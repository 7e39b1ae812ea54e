"""Lessons that were read before: the same file under the same course file gives the same lesson.

A lesson is kept only where nothing was wrong with it. The day of reading is in no key: the one
thing that a day can tell of a sound lesson is that a review still lies ahead, and what was past
once stays so. It is kept beside the lesson, for a clock that was set back.
"""

from dataclasses import dataclass, field
from datetime import date

from builder.course.lesson import Lesson
from builder.reading.references import find_names, find_wrong_addresses
from builder.work.kept import Kept, make_key
from builder.work.plain import find_maker, make_plain


@dataclass(frozen=True, slots=True)
class KeptLesson:
    """A sound lesson, since when it is so, and the lessons that its file names."""

    since: date
    lesson: Lesson
    names: tuple[str, ...]


@dataclass(slots=True)
class LessonShelf:
    """Lessons by the digest of their file and of all that reading one hangs on."""

    kept: Kept
    frame: str
    """A digest of the tool and of the course file."""
    today: date
    keys: dict[str, str] = field(default_factory=dict)
    """Lesson id to the key of its file; each tells all that the lesson is."""

    def find(self, path: str, text: str) -> KeptLesson | None:
        """Return the lesson of a file that was read before; None where it has to be read."""
        entry = self.kept.get(self._key(path, text))
        if entry is None:
            return None
        found: KeptLesson = find_maker(KeptLesson)(entry)
        if found.since > self.today:
            return None
        self.keys[found.lesson.id] = self._key(path, text)
        return found

    def keep(self, path: str, text: str, lesson: Lesson) -> None:
        """Keep a sound lesson; one whose file has a wrong address is read anew each time."""
        key = self._key(path, text)
        self.keys[lesson.id] = key
        if not any(find_wrong_addresses(text, path)):
            found = KeptLesson(self.today, lesson, tuple(find_names(text)))
            self.kept.put(key, make_plain(found))

    def _key(self, path: str, text: str) -> str:
        return make_key("lesson", self.frame, path, text)
