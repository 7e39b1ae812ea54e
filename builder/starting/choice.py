"""Choosing strands of the starter, with everything that their lessons lean on."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.names import suggest
from builder.course.notice import Notice
from builder.course.vocabulary import Strand
from builder.errors import InvalidValueError

ALL = "all"
LESSON_NAME = re.compile(r"\[\[([^\[\]]+)\]\]")


@dataclass(frozen=True, slots=True)
class Brought:
    """A strand that nobody asked for, and the lesson that can't do without it."""

    strand: Strand
    lesson: Lesson
    leans_on: Lesson


@dataclass(frozen=True, slots=True)
class Choice:
    """What of the starter goes into a new course."""

    strands: frozenset[str]
    brought: tuple[Brought, ...]
    lessons: frozenset[str]
    notices: tuple[Notice, ...]


def find_strands(starter: Course, names: Iterable[str]) -> tuple[str, ...]:
    """Return the ids of strands that are named by id or title; all where none is named."""
    strands = starter.vocabulary.strands
    known = {word.casefold(): strand.id for strand in strands.values() for word in _words(strand)}
    wanted = [" ".join(name.split()).casefold() for name in names]
    wanted = [name for name in wanted if name]
    if not wanted or ALL in wanted:
        return tuple(strands)
    for name in wanted:
        if name not in known:
            cure = suggest(name, known) or f"choose from {', '.join(strands)}"
            raise InvalidValueError(f'no strand is called "{name}"', cure)
    named = {known[name] for name in wanted}
    return tuple(strand for strand in strands if strand in named)


def choose(starter: Course, wanted: Iterable[str], texts: Mapping[str, str]) -> Choice:
    """Take whole strands and those they lean on; ``texts`` has every lesson's file by id.

    A lesson leans on what it builds on, on its easier versions, and on lessons it speaks of.
    """
    strands = set(wanted)
    brought: list[Brought] = []
    waiting = [lesson for name in sorted(strands) for lesson in starter.lessons_of(name)]
    for lesson in waiting:
        for other in _leans_on(starter, lesson, texts[lesson.id]):
            if other.strand.id not in strands:
                strands.add(other.strand.id)
                brought.append(Brought(other.strand, lesson, other))
                waiting.extend(starter.lessons_of(other.strand.id))
    lessons = [lesson for lesson in starter.lessons if lesson.strand.id in strands]
    traits = frozenset[str]().union(*(starter.traits_by_lesson[each.id] for each in lessons))
    return Choice(
        strands=frozenset(strands),
        brought=tuple(brought),
        lessons=frozenset(lesson.id for lesson in lessons),
        notices=tuple(notice for notice in starter.notices if notice.concerns(traits)),
    )


def _leans_on(starter: Course, lesson: Lesson, text: str) -> Iterator[Lesson]:
    names = (*lesson.builds_on, *lesson.easier, *(name.strip() for name in _spoken_of(text)))
    for name in dict.fromkeys(names):
        if name in starter.by_id:
            yield starter.by_id[name]


def _spoken_of(text: str) -> list[str]:
    return LESSON_NAME.findall(text)


def _words(strand: Strand) -> tuple[str, str]:
    return strand.id, strand.title
