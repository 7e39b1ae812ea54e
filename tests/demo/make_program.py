"""Make ten weeks of the demo program: `python -m tests.demo.make_program`, run by hand.

It reads people.csv and the course, and writes results.csv and attendance.csv anew. The same
course and habits give the same files. `tests/test_demo_program.py` judges them by rules of its own.
"""

import csv
import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

from builder.course.course import Course
from builder.course.dose import Dose, Sides
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.reading.course_folder import read_course
from builder.sums.practice import find_next_rest
from tests.demo.habits import HABITS, THURSDAY, Habit
from tests.demo.notebook import FIRST_TALK, RESULTS, Notebook, Row, find_chance
from tests.demo.permits import has_air, is_permitted

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo_program"
WEEKS = 10
OUTCOMES = {"R": "ready", "A": "again", "E": "easier"}
STARTS = {
    "new": ("ready-to-start", "belly-breath"),
    "breath": ("full-exhale", "tail-tuck", "even-count", "side-lying-breath"),
    "brace": ("full-exhale", "brace-and-breathe", "even-count", "side-lying-breath"),
}
"""First lessons by what somebody knows, of those that need nothing done once more before."""
ATTENDANCE = ("date", "person", "lesson", "outcome", "breaths done", "rest seconds")


@dataclass
class Client:
    """One client on the way through the ten weeks."""

    course: Course
    person: dict[str, str]
    habit: Habit
    placed: frozenset[str]
    notebook: Notebook
    outcomes: dict[str, str] = field(default_factory=dict)
    """Lesson to its outcomes so far, in letters."""
    rests: dict[str, int] = field(default_factory=dict)
    runs: dict[str, str] = field(default_factory=dict)
    sent_back: dict[str, str] = field(default_factory=dict)
    """A lesson that was too much, to the easier one that comes again first."""
    known_in_order: list[str] = field(default_factory=list)
    attendance: list[Row] = field(default_factory=list)

    @property
    def id(self) -> str:
        return self.person["id"]

    def chance(self, key: str) -> random.Random:
        return find_chance(self.id, key)

    def _has_shown(self, lesson_id: str) -> bool:
        return "RR" in self.outcomes.get(lesson_id, "")

    def _knows(self, lesson_id: str) -> bool:
        return lesson_id in self.placed or self._has_shown(lesson_id)

    def live(self) -> None:
        """Go through the ten weeks, from the first talk on."""
        for question in ("known", "floor", "kneel"):
            self.notebook.note(FIRST_TALK, question, getattr(self.habit, question))
        self._do(FIRST_TALK, self.course.by_id["ready-to-start"], is_retest=False)
        for offset in range(WEEKS * 7):
            day = FIRST_TALK + timedelta(offset)
            if day.weekday() in self.habit.weekdays and day <= self.habit.last_day:
                comes = self.chance(f"comes {day}").random() >= self.habit.misses
                if comes or offset < 7:
                    self._come(day)

    def _come(self, day: date) -> None:
        """Do a class of a day: what is due, one lesson once more, and what comes next."""
        is_retest = self.notebook.begin_retest(day)
        checks = list(self.notebook.list_checks()) if is_retest else []
        most = self.habit.focus - (day.weekday() == THURSDAY) - (len(checks) > 2)
        chosen = [name for name in self._list_open(day) if name not in checks][: max(1, most)]
        if not is_retest:
            repeats = [name for name in self._list_repeats(day) if name not in chosen]
            chosen += repeats[: 1 if len(chosen) >= self.habit.focus - 1 else 2]
        for name in sorted({*checks, *chosen}, key=self.course.teaching_order.index):
            self._do(day, self.course.by_id[name], is_retest=is_retest)
        if is_retest:
            self.notebook.measure_expansion(day)

    def _list_open(self, day: date) -> Iterator[str]:
        for name in self.habit.way:
            easier = self.sent_back.get(name)
            if easier:
                yield easier
            elif (
                not self._has_shown(name)
                and all(self._knows(before) for before in self.course.graph[name])
                and self._may(self.course.by_id[name], day)
            ):
                yield name

    def _list_repeats(self, day: date) -> list[str]:
        latest = self.known_in_order[-4:]
        names = [
            name
            for name in latest
            if not self.course.traits_by_lesson[name] & self.habit.seldom
            and self._may(self.course.by_id[name], day)
        ]
        self.chance(f"repeat {day}").shuffle(names)
        return names

    def _may(self, lesson: Lesson, day: date) -> bool:
        traits = self.course.traits_by_lesson[lesson.id]
        if traits & self.habit.not_for:
            return False
        if not is_permitted(self.course, self.person, lesson, day):
            return False
        tempo = lesson.drill.tempo
        if tempo is None:
            return True
        if tempo.has_breath_hold and 2 * tempo.longest_hold_seconds > self.notebook.best_hold:
            return False
        return has_air(self.person, lesson)

    def _do(self, day: date, lesson: Lesson, *, is_retest: bool) -> None:
        if not self._may(lesson, day):
            raise SystemExit(f"{self.id} may not do {lesson.id} on {day}")
        letter = self._draw_letter(day, lesson)
        before = self.outcomes.get(lesson.id, "")
        self.attendance.append(
            (
                *(day.isoformat(), self.id, lesson.id, OUTCOMES[letter]),
                *self._dose(day, lesson, letter, before),
            )
        )
        self.outcomes[lesson.id] = before + letter
        self._learn(lesson, letter)
        self.notebook.measure(day, lesson, letter, is_retest=is_retest)

    def _draw_letter(self, day: date, lesson: Lesson) -> str:
        done = self.outcomes.get(lesson.id, "")
        if lesson.strand.aim == "observe":
            return "R"
        if lesson.id not in self.runs:
            pace = self.habit.pace
            drawn = self.chance(lesson.id).choices(list(pace), list(pace.values()))[0]
            self.runs[lesson.id] = self.habit.runs.get(lesson.id, drawn)
        run = self.runs[lesson.id]
        if len(done) < len(run):
            return run[len(done)]
        if "RR" not in run:
            return "A"
        return "A" if self.chance(f"{lesson.id} {day}").random() < 0.12 and done[-1] == "R" else "R"

    def _dose(self, day: date, lesson: Lesson, letter: str, before: str) -> tuple[str, str]:
        dose = lesson.drill.dose
        if not isinstance(dose, Dose):
            return "", ""
        full = dose.rounds * dose.breaths
        by = 2 if dose.sides is Sides.ALTERNATE else 1
        missing = {"R": 0, "A": by * self.chance(f"less {lesson.id} {day}").randint(0, 2)}
        breaths = full - missing.get(letter, by * (full // (2 * by)))
        rest = self.rests.get(lesson.id, dose.rest_seconds)
        words = [OUTCOMES[one] for one in before]
        self.rests[lesson.id] = int(find_next_rest(rest, words).seconds)
        return str(breaths), str(self.rests[lesson.id])

    def _learn(self, lesson: Lesson, letter: str) -> None:
        done = self.outcomes[lesson.id]
        is_drill = lesson.strand.aim != "observe"
        if is_drill and "RR" in done and lesson.id not in self.known_in_order:
            self.known_in_order.append(lesson.id)
        if letter == "E" and done.endswith("EE") and lesson.easier:
            easier = lesson.easier[0]
            self.sent_back[lesson.id] = easier
            self.runs[easier] = self.outcomes.get(easier, "") + "ARR"
        for hard, easier in tuple(self.sent_back.items()):
            if lesson.id == easier and done == self.runs[easier]:
                del self.sent_back[hard]


def _place(course: Course, habit: Habit) -> frozenset[str]:
    starts = STARTS[habit.known]
    return frozenset().union(*(find_before(course.graph, start) for start in starts))


def _write(path: Path, columns: Row, rows: Iterable[Row]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)


def main() -> None:
    course = read_course(ROOT).course
    if course is None:
        raise SystemExit("the course can't be read")
    with (FOLDER / "people.csv").open(encoding="utf-8", newline="") as file:
        people = {row["id"]: row for row in csv.DictReader(file)}
    clients = [
        Client(course, people[name], habit, _place(course, habit), Notebook(name, course, habit))
        for name, habit in HABITS.items()
    ]
    for client in clients:
        client.live()
    attendance = [row for client in clients for row in client.attendance]
    results = [row for client in clients for row in client.notebook.results]
    _write(FOLDER / "attendance.csv", ATTENDANCE, sorted(attendance, key=lambda row: row[:2]))
    _write(FOLDER / "results.csv", RESULTS, sorted(results, key=lambda row: row[:2]))


if __name__ == "__main__":
    main()
