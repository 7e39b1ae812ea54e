"""Version codes: a few signs made from what a card says, so that an old card can be told.

A code is made from the course's own words and numbers and not from how a card looks, so that
another release of the tool doesn't make every printed card look old.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Notice
from builder.course.release import Release

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Crockford's 32: nobody takes one for another, and none spells a word by chance; from memory."""
LENGTH = 5
"""Of 33 million; a card has a handful of versions in its life."""
_BITS_PER_SIGN = 5


def find_version(course: Course, lesson: Lesson, audience: Audience) -> str:
    """Return the code of a lesson's card; every notice that the card carries is part of it."""
    return find_versions(course, lesson)[audience]


def find_versions(course: Course, lesson: Lesson) -> Mapping[Audience, str]:
    """Return the codes of all of a lesson's cards; most that they say is the same."""
    said = tuple(_say(course, lesson))
    notes = ("coach_notes", *_texts(lesson.words.coach_notes))
    more = {Audience.CLIENT: (), Audience.COACH: notes}
    return {audience: _write_code((*said, *more[audience])) for audience in Audience}


def _write_code(said: Iterable[str]) -> str:
    number = int.from_bytes(hashlib.sha256("\0".join(said).encode()).digest())
    return "".join(SIGNS[number >> _BITS_PER_SIGN * place & 31] for place in range(LENGTH))


@dataclass(frozen=True, slots=True)
class Unreleased:
    """A card that says something that no release has."""

    lesson: Lesson
    audience: Audience
    code: str
    last: Release | None
    """Its newest release; None where it has none."""


def find_unreleased(course: Course) -> tuple[Unreleased, ...]:
    """Return the cards that differ from their newest release, in the order of the course."""
    return tuple(_compare(course, is_new_told=True))


def find_changed(course: Course) -> tuple[Unreleased, ...]:
    """Return the cards that were released and say something else now."""
    return tuple(_compare(course, is_new_told=False))


def _compare(course: Course, *, is_new_told: bool) -> Iterator[Unreleased]:
    """Yield cards unlike their newest release; the codes of new ones only where they are asked."""
    released = course.ledger.by_card if course.ledger else {}
    for lesson in course.lessons:
        versions: Mapping[Audience, str] = {}
        for audience in Audience:
            newest = released.get((lesson.id, audience), ())
            last = newest[-1] if newest else None
            if last or is_new_told:
                versions = versions or find_versions(course, lesson)
                code = versions[audience]
                if last is None or last.code != code:
                    yield Unreleased(lesson, audience, code, last)


def _say(course: Course, lesson: Lesson) -> Iterator[str]:
    """Yield what each card says; a word before each part keeps them from running together."""
    drill, words = lesson.drill, lesson.words
    yield from ("lesson", lesson.title, lesson.summary, lesson.strand.title, str(lesson.level))
    yield from ("drill", drill.position.title, str(drill.tempo), *_spell(drill.dose))
    for use in drill.props:
        yield from ("prop", use.prop.title, use.prop.stand_in, str(use.count))
    if words.cues:
        yield from ("cues", words.cues.inhale, words.cues.exhale)
    for name in ("set_up", "steps", "if_hard", "watch_for", "ready_when", "stop_if"):
        yield from (name, *_texts(getattr(words, name)))
    for name in ("easier", "harder"):
        others = (course.by_id.get(other) for other in getattr(lesson, name))
        yield from (name, *(other.title for other in others if other))
    for notice in course.notices_for(lesson):
        yield from _say_notice(notice)
    yield from ("caution", course.settings.caution)
    yield from ("figure", *_spell(lesson.figure))


def _texts(parts: tuple[Passage, ...] | tuple[str, ...]) -> Iterator[str]:
    for part in parts:
        yield " ".join((part.text if isinstance(part, Passage) else part).split())


def _say_notice(notice: Notice) -> Iterator[str]:
    yield from ("notice", notice.title, notice.action.value)
    yield from (" ".join(text.split()) for text in (notice.short, notice.adapt))


def _spell(value: object) -> list[str]:
    """Return a value's parts in order, whatever its fields are called in the code."""
    if isinstance(value, float):
        return [f"{value:g}"]
    if isinstance(value, str):  # the members of our enumerations too
        return [str(value)]
    if isinstance(value, Mapping):
        return [said for key in sorted(value) for said in (str(key), *_spell(value[key]))]
    if isinstance(value, tuple):
        return [f"{len(value)}", *(said for part in value for said in _spell(part))]
    if is_dataclass(value) and not isinstance(value, type):
        return [said for name in _name_fields(type(value)) for said in _spell(getattr(value, name))]
    return [str(value)]


@cache
def _name_fields(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))
