"""Placing: where a person starts in each strand, by what a coach has on record of them.

The table is that of the site's self-check; `place` is asked with answers that records give, and
each start is then held against what bars this person from it.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from builder.course.course import Course
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.planning.answers import FoundAnswers, find_answers_on
from builder.planning.permission import Barrier, find_barriers, find_general_questions
from builder.planning.placement import Start, place
from builder.records.person import Person
from builder.records.result import Result


class StartKind(StrEnum):
    """How the table's start fares with a person."""

    FITS = "fits"
    """As the table says, be it a lesson or to wait."""
    EASIER = "easier"
    """The table's lesson is barred, and an easier one of the strand isn't."""
    WAITS = "waits"
    """The table's lesson is barred, and so is every easier one that the order allows."""
    ASKS_FIRST = "asks-first"
    """No start at all before a licensed clinician was asked."""
    UNREADABLE = "unreadable"
    """Nothing is known of the table's lesson, because its file has faults."""


@dataclass(frozen=True, slots=True)
class PersonStart:
    """Where one person starts in one strand."""

    strand_id: str
    lesson_id: str
    """Empty where the strand has to wait."""
    kind: StartKind
    start: Start | None
    """What the table says; None where a clinician comes first."""
    barriers: tuple[Barrier, ...] = ()
    """What bars the table's lesson, or any lesson at all."""


def find_answers(
    course: Course, person: Person, results: Collection[Result], ready_lessons: Collection[str]
) -> FoundAnswers:
    """Return what records answer to the table's questions, up to the day of the course."""
    return find_answers_on(course, person, results, ready_lessons, course.day)


def place_person(
    course: Course,
    person: Person,
    results: Collection[Result],
    ready_lessons: Collection[str],
    *,
    day: date | None = None,
) -> tuple[PersonStart, ...]:
    """Return a start in each strand of the table; none at all in a course without a table.

    The day is that on which the course was read where none is given. Raises BuilderError where a
    notice of the course can't be read.
    """
    table = course.placement
    if table is None:
        return ()
    on = course.day if day is None else day
    questions = find_general_questions(course, person, on)
    if questions:
        return tuple(
            PersonStart(each.strand_id, "", StartKind.ASKS_FIRST, None, questions)
            for each in table.starts
        )
    answers = find_answers_on(course, person, results, ready_lessons, on)
    judge = _Judge(course, person, tuple(results), frozenset(ready_lessons), on)
    return tuple(judge.judge(each) for each in place(table, answers.values, asks_first=False))


@dataclass(frozen=True, slots=True)
class _Judge:
    """Holds the table's starts against one person on one day."""

    course: Course
    person: Person
    results: tuple[Result, ...]
    ready: frozenset[str]
    day: date

    def judge(self, start: Start) -> PersonStart:
        """Tell whether a start holds, and what takes its place where it doesn't."""
        if not start.lesson_id:
            return PersonStart(start.strand_id, "", StartKind.FITS, start)
        lesson = self.course.by_id.get(start.lesson_id)
        if lesson is None:
            return PersonStart(start.strand_id, "", StartKind.UNREADABLE, start)
        barriers = self.bar(lesson)
        if not barriers:
            return PersonStart(start.strand_id, lesson.id, StartKind.FITS, start)
        for other in self.list_easier(lesson):
            if not self.bar(other):
                return PersonStart(start.strand_id, other.id, StartKind.EASIER, start, barriers)
        return PersonStart(start.strand_id, "", StartKind.WAITS, start, barriers)

    def bar(self, lesson: Lesson) -> tuple[Barrier, ...]:
        """Return what bars the person from a lesson."""
        return find_barriers(self.course, self.person, self.results, lesson, self.day)

    def list_easier(self, lesson: Lesson) -> Iterator[Lesson]:
        """Yield easier lessons of the strand that the order allows, nearest first.

        What comes before the table's start counts as known, as it does for the table.
        """
        known = self.ready | find_before(self.course.graph, lesson.id)
        for other in _list_down(self.course, lesson):
            if set(other.builds_on) <= known:
                yield other


def _list_down(course: Course, lesson: Lesson) -> tuple[Lesson, ...]:
    """Return the strand's lessons below one: its named easier ones first, then level by level."""
    found: dict[str, Lesson] = {}
    waiting = [lesson]
    for current in waiting:
        for name in current.easier:
            other = course.by_id.get(name)
            is_new = other is not None and name != lesson.id and name not in found
            if other and is_new and other.strand.id == lesson.strand.id:
                found[name] = other
                waiting.append(other)
    lower = [each for each in course.lessons_of(lesson.strand.id) if each.level < lesson.level]
    for other in sorted(lower, key=lambda each: -each.level):
        found.setdefault(other.id, other)
    return tuple(found.values())
