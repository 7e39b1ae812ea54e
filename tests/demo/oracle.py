"""Rules that the demo program must keep, written anew: nothing of the planner's is used.

That the records fit each other is ours; that rests shorten slowly, and that nobody goes on before
a lesson was shown twice, is common practice.
"""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.course.notice import Action
from builder.reading.course_folder import read_course

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo_program"
FIRST_TALK, LAST_DAY = date(2026, 9, 14), date(2026, 11, 22)
CLASS_WEEKDAYS = {1, 3, 5}
"""Tuesday, Thursday and Saturday; Monday is 0."""
QUESTIONS = ("known", "floor", "kneel")
TO_BE_SHOWN_AGAIN = {"stretch", "front-line"}
"""Strands in which placement asks to do what comes before once more, so a start shows nothing."""
KEPT_OFF = {
    "pregnancy": {"breath-hold", "prone", "hand-resistance", "bracing", "load"},
    "high-blood-pressure": {"breath-hold"},
    "thin-bones": {"trunk-flexion", "trunk-rotation", "hand-resistance"},
}
"""What the notices of kind adapt tell to leave out altogether."""
Row = dict[str, str]


@dataclass(frozen=True)
class Records:
    people: list[Row]
    attendance: list[Row]
    results: list[Row]

    def person(self, person_id: str) -> Row:
        return next(row for row in self.people if row["id"] == person_id)

    def history(self, person_id: str, lesson_id: str, before: str = "9999") -> list[Row]:
        wanted = (person_id, lesson_id)
        return [
            row
            for row in self.attendance
            if (row["person"], row["lesson"]) == wanted and row["date"] < before
        ]

    def letters(self, person_id: str, lesson_id: str, before: str = "9999") -> str:
        rows = self.history(person_id, lesson_id, before)
        return "".join(row["outcome"][0] for row in rows)

    def readings(self, person_id: str, measure: str, side: str = "") -> dict[str, list[float]]:
        """Return the numbers of each day."""
        days: dict[str, list[float]] = {}
        for row in self.results:
            if (row["person"], row["measure"], row["side"]) == (person_id, measure, side):
                days.setdefault(row["date"], []).append(float(row["value"]))
        return days

    def best_holds(self, person_id: str) -> list[float]:
        return [max(trials) for trials in self.readings(person_id, "breath-hold-seconds").values()]


def read_rows(name: str) -> list[Row]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def read_records() -> Records:
    names = ("people.csv", "attendance.csv", "results.csv")
    return Records(*(read_rows(name) for name in names))


@cache
def the_course() -> Course:
    course = read_course(ROOT).course
    assert course is not None
    return course


def full_breaths(lesson: Lesson) -> int | None:
    dose = lesson.drill.dose
    return dose.rounds * dose.breaths if isinstance(dose, Dose) else None


def placed(records: Records, person_id: str) -> frozenset[str]:
    """Return what lies before the starts that the first talk gives."""
    answers = {
        row["measure"]: row["value"]
        for row in records.results
        if row["person"] == person_id and row["measure"] in QUESTIONS
    }
    course = the_course()
    assert course.placement is not None
    known: set[str] = set()
    for start in course.placement.starts:
        way = next(
            way
            for way in start.ways
            if all(answers.get(one.question_id) in one.answers for one in way.conditions)
        )
        if way.lesson_id and start.strand_id not in TO_BE_SHOWN_AGAIN:
            known |= find_before(course.graph, way.lesson_id)
    return frozenset(known)


def find_unknown_names(records: Records) -> Iterator[str]:
    course = the_course()
    words = course.vocabulary
    known = {
        "person": {row["id"] for row in records.people},
        "lesson": {*course.by_id, ""},
        "outcome": {"ready", "again", "easier"},
        "measure": {*words.measures, *QUESTIONS},
    }
    for row in [*records.attendance, *records.results]:
        for column, names in known.items():
            if row.get(column, next(iter(names))) not in names:
                yield f"{column} {row[column]}"
    for row in records.people:
        for name in filter(None, row["conditions"].split(";")):
            if name not in words.conditions:
                yield f"condition {name}"


def find_wrong_days(records: Records) -> Iterator[str]:
    came = {(row["date"], row["person"]) for row in records.attendance}
    for row in records.attendance:
        day = date.fromisoformat(row["date"])
        is_talk = day == FIRST_TALK and row["lesson"] == "ready-to-start"
        in_class = FIRST_TALK < day <= LAST_DAY and day.weekday() in CLASS_WEEKDAYS
        if not (is_talk or in_class):
            yield f"{row['person']} on {row['date']}: no class"
    for row in records.results:
        if (row["date"], row["person"]) not in came:
            yield f"{row['person']} on {row['date']}: was not there"


def find_broken_order(records: Records) -> Iterator[str]:
    course = the_course()
    for row in records.attendance:
        known = placed(records, row["person"])
        for before in course.graph[row["lesson"]]:
            letters = records.letters(row["person"], before, row["date"])
            lost = letters.rfind("ee") > letters.rfind("rr")
            if before not in known and ("rr" not in letters or lost):
                yield f"{row['person']} on {row['date']}: {row['lesson']} before {before}"


def find_forbidden(records: Records) -> Iterator[str]:
    course = the_course()
    for row in records.attendance:
        person = records.person(row["person"])
        conditions = set(filter(None, person["conditions"].split(";")))
        cleared = dict(part.split() for part in filter(None, person["cleared"].split(";")))
        lesson = course.by_id[row["lesson"]]
        what = f"{row['person']} on {row['date']}: {row['lesson']}"
        traits = course.traits_by_lesson[lesson.id]
        for notice in course.notices_for(lesson):
            met = conditions & set(notice.conditions)
            if met and notice.action is Action.STOP:
                yield f"{what}: {notice.id} says stop"
            if notice.action is Action.ASK_FIRST:
                asked = [name for name in met if cleared.get(name, "9999") < row["date"]]
                if len(asked) < len(met):
                    yield f"{what}: no clinician was asked"
        if any(traits & KEPT_OFF.get(name, set()) for name in conditions):
            yield f"{what}: kept off by a notice"


def find_wrong_doses(records: Records) -> Iterator[str]:
    course = the_course()
    for row in records.attendance:
        full = full_breaths(course.by_id[row["lesson"]])
        done = int(row["breaths done"]) if row["breaths done"] else None
        what = f"{row['person']} on {row['date']}: {done} breaths of {row['lesson']}"
        if full is None or done is None:
            fits = full == done
        else:
            fits = {"ready": done == full, "easier": 0 < done < full}.get(
                row["outcome"], 0 < done <= full
            )
        if not fits:
            yield what


def find_hasty_rests(records: Records) -> Iterator[str]:
    course = the_course()
    for row in records.attendance:
        dose = course.by_id[row["lesson"]].drill.dose
        earlier = records.history(row["person"], row["lesson"], row["date"])
        what = f"{row['person']} on {row['date']}: {row['rest seconds']} s of {row['lesson']}"
        if not isinstance(dose, Dose):
            if row["rest seconds"]:
                yield what
            continue
        rest = int(row["rest seconds"])
        last = int(earlier[-1]["rest seconds"]) if earlier else dose.rest_seconds
        twice_ready = [past["outcome"] for past in earlier[-2:]] == ["ready", "ready"]
        if rest < last and not (twice_ready and 10 * rest >= 9 * last and rest >= 15):
            yield what
        if rest > last or (not earlier and rest != last):
            yield what


def find_odd_results(records: Records) -> Iterator[str]:
    """Yield readings with a wrong side, unit or word, or of another lesson or day."""
    course = the_course()
    done = {(row["date"], row["person"], row["lesson"]) for row in records.attendance}
    for row in records.results:
        what = f"{row['person']} on {row['date']}: {row['measure']} {row['value']}"
        measure = course.vocabulary.measures.get(row["measure"])
        if measure is None:
            continue
        if bool(row["side"]) != measure.has_sides or row["side"] not in ("", "left", "right"):
            yield f"{what}: side"
        words = measure.unit.replace(" or ", ", ").split(", ")
        fits = row["value"] in words if len(words) > 1 else row["unit"] == measure.unit
        if not fits:
            yield f"{what}: unit or word"
        if row["measure"] == "chest-expansion-cm":
            continue
        lesson = course.by_id.get(row["lesson"])
        if lesson is None or measure not in lesson.measures:
            yield f"{what}: not read in {row['lesson']}"
        if (row["date"], row["person"], row["lesson"]) not in done:
            yield f"{what}: {row['lesson']} was not done"


def find_unlikely_readiness(records: Records) -> Iterator[str]:
    """Yield where an outcome and a reading of one person don't go together."""
    course = the_course()
    for row in records.results:
        what = f"{row['person']} on {row['date']}: {row['measure']} {row['value']}"
        before = row["date"]
        if row["measure"] == "steady-breaths":
            (outcome,) = [
                past["outcome"]
                for past in records.history(row["person"], row["lesson"])
                if past["date"] == before
            ] or [""]
            dose = course.by_id[row["lesson"]].drill.dose
            is_whole_set = isinstance(dose, Dose) and float(row["value"]) >= dose.breaths
            if is_whole_set != (outcome == "ready"):
                yield what
        knows_belly = "rr" in records.letters(row["person"], "belly-breath", before)
        if row["lesson"] == "hands-check-lying" and knows_belly and row["value"] == "chest":
            yield what
        knows_side = "rr" in records.letters(row["person"], "weak-side-breath", before)
        if row["measure"] == "rib-sides" and knows_side and row["value"] != "even":
            yield what


def find_long_holds(records: Records) -> Iterator[str]:
    course = the_course()
    for row in records.attendance:
        tempo = course.by_id[row["lesson"]].drill.tempo
        if tempo is None or not tempo.has_breath_hold:
            continue
        holds = records.readings(row["person"], "breath-hold-seconds")
        newest = [max(trials) for day, trials in holds.items() if day <= row["date"]][-1:]
        if not newest or newest[0] < 2 * tempo.longest_hold_seconds:
            yield f"{row['person']} on {row['date']}: {row['lesson']}"


RULES = (
    find_unknown_names,
    find_wrong_days,
    find_broken_order,
    find_forbidden,
    find_wrong_doses,
    find_hasty_rests,
    find_odd_results,
    find_unlikely_readiness,
    find_long_holds,
)
