"""How far a language is: which files have a translation, and which of them are behind."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from builder.course.course import Course
from builder.reading.pages import Page
from builder.reading.translation.compare import list_changes
from builder.reading.translation.kept import name_kept, read_kept
from builder.reading.translation.names import name_translation
from builder.reading.translation.originals import Original, list_originals


class State(StrEnum):
    """What a translation needs."""

    MISSING = "missing"
    UNAGREED = "to be compared"
    """Nobody noted which state of the original it translates."""
    STALE = "out of date"
    CURRENT = "current"


@dataclass(frozen=True, slots=True)
class Status:
    """One file and its translation."""

    original: Original
    path: Path
    """Of the translation."""
    kept: Path
    """Where the original is kept as it was when it was translated."""
    state: State
    changes: tuple[str, ...]
    """What the original says otherwise since, in words."""


def find_status(
    content: Path, course: Course, pages: tuple[Page, ...], language: str
) -> Iterator[Status]:
    """Yield the state of every file that a language of a course should have."""
    for original in list_originals(course, pages, course.settings.languages[language]):
        path = content / name_translation(original.within, language)
        place = content / name_kept(original.within, language)
        kept = read_kept(place)
        changes = () if kept is None else tuple(list_changes(kept, original.parts))
        if not path.is_file():
            state = State.MISSING
        elif kept is None:
            state = State.UNAGREED
        else:
            state = State.STALE if changes else State.CURRENT
        yield Status(original, path, place, state, changes)
