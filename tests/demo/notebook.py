"""What the coach writes down of one client: retests about every two weeks, and other readings."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from tests.demo.habits import Habit

SEED = "saltmarsh 1"
FIRST_TALK = date(2026, 9, 14)
"""A Monday: everybody answers the first questions, nobody practises."""
RETEST_WEEKS = (1, 3, 5, 7, 9)
CHECKS = {
    "hands-check-sitting": "first-mover",
    "hands-check-lying": "first-mover",
    "rib-sides-check": "rib-sides",
    "comfortable-hold": "breath-hold-seconds",
}
REACH = "side-lying-rotation-hold"
RESULTS = ("date", "person", "measure", "side", "value", "unit", "lesson", "note")
Row = tuple[str, ...]


def find_chance(person_id: str, key: str) -> random.Random:
    """Return chances that depend on nothing but a person and a matter."""
    return random.Random(f"{SEED} {person_id} {key}")  # noqa: S311  # the same weeks every time


@dataclass
class Notebook:
    """The results of one client."""

    person_id: str
    course: Course
    habit: Habit
    best_hold: int = 0
    retests: int = 0
    reaches: int = 0
    climbs: int = 0
    has_begun_reach: bool = False
    noted: set[tuple[str, int]] = field(default_factory=set)
    """Where a note stands already: one a day is enough."""
    results: list[Row] = field(default_factory=list)

    def begin_retest(self, day: date) -> bool:
        week = 1 + (day - FIRST_TALK).days // 7
        due = week in RETEST_WEEKS and self.retests < 1 + RETEST_WEEKS.index(week)
        if due:
            self.retests = 1 + RETEST_WEEKS.index(week)
        return due

    def list_checks(self) -> Iterator[str]:
        for name in CHECKS:
            readings = self._list_readings(name)
            if len(readings) >= self.retests and readings[self.retests - 1]:
                yield name
        if self.reaches < len(self.habit.reach) and self.has_begun_reach:
            yield REACH

    def _list_readings(self, check: str) -> tuple[object, ...]:
        habit = self.habit
        every = (habit.sitting, habit.lying, habit.ribs, habit.holds)
        return dict(zip(CHECKS, every, strict=True))[check]

    def measure(self, day: date, lesson: Lesson, letter: str, *, is_retest: bool) -> None:
        if lesson.id in CHECKS:
            self._measure_check(day, lesson.id)
        elif lesson.id == REACH:
            self._measure_reach(day, is_retest=is_retest)
        elif lesson.id == "tempo-ladder":
            cycle = self.habit.cycles[min(self.climbs, len(self.habit.cycles) - 1)]
            self.note(day, "longest-cycle-seconds", cycle, lesson.id)
            self.climbs += 1
        elif is_retest and any(measure.id == "steady-breaths" for measure in lesson.measures):
            most = lesson.drill.dose.breaths if isinstance(lesson.drill.dose, Dose) else 0
            few = find_chance(self.person_id, f"steady {lesson.id} {day}").randint(1, 2)
            steady = {"R": most, "A": most - few, "E": most // 2}[letter]
            self.note(day, "steady-breaths", steady, lesson.id)

    def _measure_check(self, day: date, name: str) -> None:
        reading = self._list_readings(name)[self.retests - 1]
        for trial in reading if isinstance(reading, tuple) else (reading,):
            self.note(day, CHECKS[name], trial, name)
        if isinstance(reading, tuple):
            self.best_hold = max(reading)

    def _measure_reach(self, day: date, *, is_retest: bool) -> None:
        is_due = is_retest or not self.has_begun_reach
        self.has_begun_reach = True
        if self.reaches < len(self.habit.reach) and is_due:
            for side, value in zip(("left", "right"), self.habit.reach[self.reaches], strict=True):
                self.note(day, "reach-cm", value, REACH, side=side)
            self.reaches += 1

    def measure_expansion(self, day: date) -> None:
        readings = self.habit.expansion
        if len(readings) >= self.retests and readings[self.retests - 1]:
            self.note(day, "chest-expansion-cm", readings[self.retests - 1], "")

    def note(
        self, day: date, measure: str, value: object, lesson: str = "", side: str = ""
    ) -> None:
        found = self.course.vocabulary.measures.get(measure)
        unit = found.unit if found and " " not in found.unit else ""
        key = (lesson, self.reaches if lesson == REACH else self.retests - 1)
        note = "" if key in self.noted else self.habit.notes.get(key, "")
        self.noted.add(key)
        cells = (day.isoformat(), self.person_id, measure, side, str(value), unit, lesson, note)
        self.results.append(cells)
