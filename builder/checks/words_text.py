"""What a lesson or notice says, text by text, each with its place."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Notice
from builder.findings import Place

_LESSON_NAME = re.compile(r"\[\[([^\[\]]+)\]\]")
_NEW_BLOCK = re.compile(r"[ \t]*(?:[-*+]|[0-9]+[.)])[ \t]+")


@dataclass(frozen=True, slots=True)
class Saying:
    """One text as people read it, names of lessons written out."""

    text: str
    place: Place


def list_client_sayings(course: Course, lesson: Lesson) -> tuple[Saying, ...]:
    """Return all that a lesson says to a client, in the order of its page."""
    words = lesson.words
    header = [("title", lesson.title), ("summary", lesson.summary)]
    for key in ("watch_for", "ready_when", "stop_if"):
        header += [(f"{key}.{index}", text) for index, text in enumerate(getattr(words, key))]
    passages = (*words.set_up, *words.steps, *words.if_hard)
    return (
        *(Saying(_write_out(course, text), lesson.at(key)) for key, text in header),
        *list_cues(lesson),
        *_from_passages(course, lesson, passages),
    )


def list_cues(lesson: Lesson) -> tuple[Saying, ...]:
    """Return the cues of a lesson."""
    cues = lesson.words.cues
    if cues is None:
        return ()
    return (
        Saying(cues.inhale, lesson.at("cues.inhale")),
        Saying(cues.exhale, lesson.at("cues.exhale")),
    )


def list_step_sayings(course: Course, lesson: Lesson) -> tuple[Saying, ...]:
    """Return what a lesson tells a client to do: its steps and its cues."""
    return (*_from_passages(course, lesson, lesson.words.steps), *list_cues(lesson))


def list_coach_sayings(course: Course, lesson: Lesson) -> tuple[Saying, ...]:
    """Return what a lesson says to a coach alone."""
    return tuple(_from_passages(course, lesson, lesson.words.coach_notes))


def list_notice_sayings(notice: Notice) -> tuple[Saying, ...]:
    """Return what a notice says, its long text paragraph by paragraph and item by item."""
    header = (("short", notice.short), ("adapt", notice.adapt))
    return (
        *(Saying(text, notice.at(key)) for key, text in header if text),
        *_split_blocks(notice.long, notice.place.path, notice.long_line),
    )


def _from_passages(course: Course, lesson: Lesson, passages: Iterable[Passage]) -> Iterator[Saying]:
    for passage in passages:
        yield Saying(_write_out(course, passage.text), lesson.at_line(passage.line))


def _write_out(course: Course, text: str) -> str:
    """Replace names of lessons by their titles, as pages and cards do."""

    def title(found: re.Match[str]) -> str:
        lesson = course.by_id.get(found[1])
        return lesson.title if lesson else found[1]

    return _LESSON_NAME.sub(title, text)


def _split_blocks(markdown: str, path: str, first_line: int) -> Iterator[Saying]:
    block: list[str] = []
    start = first_line
    for number, line in enumerate((*markdown.split("\n"), ""), first_line):
        if not line.strip() or _NEW_BLOCK.match(line):
            if block:
                yield Saying(" ".join(block), Place(path, start))
            block, start = [], number
        if line.strip():
            start = start if block else number
            block.append(line.strip())
