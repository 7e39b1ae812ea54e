"""Standing: what a person knows on a day, by attendance and by where they were placed.

The rules are those of `builder/sums/advance.py`, all of them ours. Days are gone through in order:
who was away for six weeks and came back once has not shown again what the other strands hold.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from itertools import groupby

from builder.course.course import Course
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.records.attendance import Attendance, Outcome
from builder.sums.advance import is_known_after, order_outcomes, was_away, was_too_much

OBSERVE = "observe"
"""The aim of a strand of checks, which are no drills."""
_DAYS_OF_WEEK = 7


class OnceMore(StrEnum):
    """Why a lesson that was known is to be shown once more; one ``ready`` is enough."""

    AWAY = "away"
    """Six weeks without any attendance."""
    LOST_BEFORE = "lost-before"
    """What it builds on in its strand was too much."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What one person knows on one day."""

    day: date
    known: frozenset[str]
    """Shown ready, or before a placed start and not itself at or after the start of its strand."""
    met: frozenset[str]
    """What counts where a lesson builds on it: known, or before a placed start and not lost."""
    behind: frozenset[str]
    """What counts where a known lesson builds on it: met, or before a placed start and not lost,
    even where its own strand's start asks that it be shown."""
    open: tuple[str, ...]
    """What may come next, in teaching order: not known, all that it builds on met.

    A lesson that was too much is not among them until an easier one of it was ready again.
    """
    tries: Mapping[str, tuple[Outcome, ...]]
    """Lesson to its outcomes, one a day, the weakest of each day."""
    last_day: date | None
    """The last day with any attendance; None where there was none."""
    current: Mapping[str, str]
    """Strand to the lesson of it that was last worked on."""
    too_much: tuple[str, ...]
    """Lessons that were too much, with an easier one that is still to come, in teaching order."""
    set_back: tuple[str, ...]
    """The easier lessons to which that sent the person, in teaching order."""
    once_more: Mapping[str, OnceMore]
    """Lessons to show once more, and why."""
    placed: tuple[str, ...]
    """The lessons at which the person was placed."""
    shown: frozenset[str]
    """Lessons that the record alone made known at any time, be they lost since or not."""

    @property
    def weeks_away(self) -> int:
        """Return the whole weeks since the last attendance; 0 where there was none."""
        return (self.day - self.last_day).days // _DAYS_OF_WEEK if self.last_day else 0


def find_standing(
    course: Course, attendance: Iterable[Attendance], placed: Collection[str], day: date
) -> Standing:
    """Return what a person knows on a day.

    Takes that person's rows in order of their days; those after the day don't count. What placed
    starts build on counts as known, but for lessons at which a strand has its own start. Checks
    among these count as met: somebody who begins with the first check and the first breath hasn't
    done the checks between, and breathes nevertheless. Drills among these are to be shown first.
    """
    starts = tuple(name for name in course.teaching_order if name in placed)
    before = set[str]().union(*(find_before(course.graph, name) for name in starts))
    started = _find_from(course, starts)
    drills = {name for name in started if course.by_id[name].strand.aim != OBSERVE}
    history = _History(course, before - started, before - drills, set(before))
    rows = sorted((row for row in attendance if row.day <= day), key=lambda row: row.day)
    for on, group in groupby(rows, key=lambda row: row.day):
        history.add_day(on, tuple(group))
    history.note_absence(day)
    return _sum_up(course, history, starts, day)


def _find_from(course: Course, starts: tuple[str, ...]) -> set[str]:
    """Return placed starts and what builds on them in their own strands."""
    return {
        lesson.id
        for name in starts
        for lesson in course.lessons_of(course.by_id[name].strand.id)
        if lesson.id == name or name in find_before(course.graph, lesson.id)
    }


def _find_before_starts(course: Course, starts: tuple[str, ...]) -> set[str]:
    """Return what comes before starts, and isn't or follows a start itself."""
    before = {each for name in starts for each in find_before(course.graph, name)}
    return {
        name
        for name in before & course.by_id.keys()
        if name not in starts and find_before(course.graph, name).isdisjoint(starts)
    }


@dataclass(slots=True)
class _History:
    """What was shown up to a day, as it is gone through."""

    course: Course
    known: set[str]
    placed_before: set[str]
    """What lies before placed starts, drills to be shown left out, and was not lost since."""
    behind: set[str]
    """The same, drills to be shown included."""
    once_more: dict[str, OnceMore] = field(default_factory=dict)
    tries: dict[str, list[Outcome]] = field(default_factory=dict)
    days: dict[str, date] = field(default_factory=dict)
    """The last day of each lesson."""
    last_ready: dict[str, date] = field(default_factory=dict)
    shown: set[str] = field(default_factory=set)
    current: dict[str, str] = field(default_factory=dict)
    last_day: date | None = None

    def add_day(self, on: date, rows: tuple[Attendance, ...]) -> None:
        """Take in a day: first what was shown, then what was too much, whatever the order."""
        self.note_absence(on)
        self.last_day = on
        outcomes = _take_weakest(row for row in rows if row.lesson_id in self.course.by_id)
        for lesson_id, outcome in outcomes.items():
            self.tries.setdefault(lesson_id, []).append(outcome)
            self.days[lesson_id] = on
            self.current[self.course.by_id[lesson_id].strand.id] = lesson_id
            if outcome is Outcome.READY:
                self.last_ready[lesson_id] = on
                self._show(self.course.by_id[lesson_id])
        for lesson_id in outcomes:
            if was_too_much(self.tries[lesson_id]):
                self._lose(self.course.by_id[lesson_id])

    def note_absence(self, on: date) -> None:
        """Open the top level of each strand again where six weeks went by before a day."""
        if self.last_day is None or not was_away(self.last_day, on):
            return
        for strand_id in self.course.vocabulary.strands:
            shown = [
                lesson
                for lesson in self.course.lessons_of(strand_id)
                if lesson.id in self.known or lesson.id in self.once_more
            ]
            top = max((lesson.level for lesson in shown), default=0)
            for lesson in shown:
                if lesson.level == top and lesson.id in self.known:
                    self._ask_once_more(lesson.id, OnceMore.AWAY)

    def _show(self, lesson: Lesson) -> None:
        is_check = lesson.strand.aim == OBSERVE
        is_known = is_known_after(self.tries[lesson.id], is_check=is_check)
        if is_known or lesson.id in self.once_more:
            self.known.add(lesson.id)
            self.shown.add(lesson.id)
            self.once_more.pop(lesson.id, None)

    def _ask_once_more(self, lesson_id: str, why: OnceMore) -> None:
        self.known.remove(lesson_id)
        self._drop(lesson_id)
        self.once_more[lesson_id] = why

    def _lose(self, lesson: Lesson) -> None:
        self.known.discard(lesson.id)
        self._drop(lesson.id)
        self.once_more.pop(lesson.id, None)
        for other in self.course.lessons_of(lesson.strand.id):
            builds_on = find_before(self.course.graph, other.id)
            if lesson.id in builds_on:
                self._drop(other.id)
                if other.id in self.known:
                    self._ask_once_more(other.id, OnceMore.LOST_BEFORE)

    def _drop(self, lesson_id: str) -> None:
        self.placed_before.discard(lesson_id)
        self.behind.discard(lesson_id)


def _take_weakest(rows: Iterable[Attendance]) -> dict[str, Outcome]:
    """Return one outcome a lesson, lessons in the order of their last rows."""
    weakness = order_outcomes()
    outcomes: dict[str, Outcome] = {}
    for row in rows:
        earlier = outcomes.pop(row.lesson_id, row.outcome)
        outcomes[row.lesson_id] = min(earlier, row.outcome, key=weakness.index)
    return outcomes


def _sum_up(course: Course, history: _History, placed: tuple[str, ...], day: date) -> Standing:
    too_much = {
        name: easier
        for name in course.teaching_order
        if (easier := _find_easier_to_come(course, history, name))
    }
    met = frozenset(history.known | history.placed_before)
    sent_to = {name for names in too_much.values() for name in names}
    return Standing(
        day=day,
        known=frozenset(history.known),
        met=met,
        behind=met.union(history.behind),
        open=tuple(
            name
            for name in course.teaching_order
            if name not in history.known
            and name not in too_much
            and met.issuperset(course.by_id[name].builds_on)
        ),
        tries={name: tuple(history.tries[name]) for name in sorted(history.tries)},
        last_day=history.last_day,
        current={
            strand: history.current[strand]
            for strand in course.vocabulary.strands
            if strand in history.current
        },
        too_much=tuple(too_much),
        set_back=tuple(name for name in course.teaching_order if name in sent_to),
        once_more={name: history.once_more[name] for name in sorted(history.once_more)},
        placed=placed,
        shown=frozenset(history.shown),
    )


def _find_easier_to_come(course: Course, history: _History, name: str) -> tuple[str, ...]:
    """Return the easier lessons of one that was too much; none where one was ready since."""
    if not was_too_much(history.tries.get(name, ())):
        return ()
    easier = tuple(other for other in course.by_id[name].easier if other in course.by_id)
    lost_on = history.days[name]
    is_over = any(history.last_ready.get(other, date.min) > lost_on for other in easier)
    return () if is_over else easier
