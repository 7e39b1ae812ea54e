"""Rows of results.csv and attendance.csv to values, and back to cells."""

from datetime import date
from decimal import Decimal

from builder import rules
from builder.course.measure_words import list_words
from builder.course.names import offer
from builder.course.vocabulary import Measure
from builder.records.attendance import Attendance, Outcome
from builder.records.known import Known, show_person
from builder.records.result import Result, Side
from builder.records.row_check import RowCheck

MOST_BREATHS = 2000
MOST_REST_SECONDS = 3600
SANE_RANGES = {
    "s": (0, 900),
    "min": (0, 600),
    "cm": (-100, 250),
    "breaths": (0, 2000),
    "%": (0, 100),
}
"""By unit, what a reading can be at all; outside it a digit or a unit slipped (ours)."""
_ANY_RANGE = (-100_000, 100_000)
_SECONDS = "s"
_LONGEST_NOTE = 2000
_LONGEST_ENTRY = 100


def read_attendance(check: RowCheck, known: Known) -> Attendance | None:
    """Read an attendance; None where something is wrong."""
    person_id = _read_person_id(check, known)
    day = _read_day(check, known, person_id)
    lesson_id = _read_lesson_id(check, known) if check.require("lesson") else ""
    outcome = check.choose("outcome", list(Outcome)) if check.require("outcome") else None
    breaths = check.read_count("breaths done", MOST_BREATHS)
    rest = check.read_count("rest seconds", MOST_REST_SECONDS)
    entry = _read_entry(check)
    if check.has_faults or day is None or outcome is None:
        return None
    return Attendance(day, person_id, lesson_id, Outcome(outcome), breaths, rest, entry)


def read_result(check: RowCheck, known: Known) -> Result | None:
    """Read a result; None where something is wrong."""
    person_id = _read_person_id(check, known)
    day = _read_day(check, known, person_id)
    name = check.require("measure")
    measure = _find_measure(name, known)
    if name and measure is None:
        check.refuse_unlisted("measure", name, (*known.measures, *known.questions))
    lesson_id = _read_lesson_id(check, known)
    side, value, unit = _read_reading(check, measure, known) if measure else (None, None, "")
    if measure and lesson_id:
        _refuse_other_lesson(check, known, measure.id, lesson_id)
    if len(check.text("note")) > _LONGEST_NOTE:
        fact = f'the cell under "note" is longer than {_LONGEST_NOTE} characters'
        check.refuse("note", fact, "shorten it")
    entry = _read_entry(check)
    if check.has_faults or day is None or measure is None or value is None:
        return None
    note = check.text("note")
    return Result(day, person_id, measure.id, side, value, unit, lesson_id, note, entry)


def list_cells(value: Attendance | Result) -> dict[str, str]:
    """Return a value as the cells of its row, by column."""
    cells = {"date": value.day.isoformat(), "person": value.person_id, "lesson": value.lesson_id}
    if isinstance(value, Attendance):
        return cells | {
            "outcome": value.outcome.value,
            "breaths done": _write_number(value.breaths_done),
            "rest seconds": _write_number(value.rest_seconds),
            "entry": value.entry,
        }
    return cells | {
        "measure": value.measure_id,
        "side": value.side.value if value.side else "",
        "value": value.value if isinstance(value.value, str) else _write_number(value.value),
        "unit": value.unit,
        "note": value.note,
        "entry": value.entry,
    }


def _write_number(number: float | None) -> str:
    if number is None:
        return ""
    return format(Decimal(repr(number)), "f").removesuffix(".0")


def _read_person_id(check: RowCheck, known: Known) -> str:
    """Return the id as people.csv writes it."""
    text = check.require("person")
    person_id = known.person_ids.get(text.casefold())
    if text and person_id is None and known.has_people:
        named = known.ids_by_name.get(text.casefold())
        if named:
            cure = f'write the id "{named}"'
            fact = 'a name stands under "person"'
            check.refuse("person", fact, cure, rules.NAME_UNLISTED)
        else:
            shown = show_person(text)
            check.refuse_unlisted("person", text, known.person_ids.values(), shown)
    return person_id or text


def _read_day(check: RowCheck, known: Known, person_id: str) -> date | None:
    day = check.read_day("date", known.today)
    person = known.people.get(person_id)
    if day and person and person.birth_year and day.year < person.birth_year:
        fact = f'{day.isoformat()} is before "{person_id}" was born'
        check.refuse("date", fact, "correct the date, or the birth year in the file of people")
    return day


def _read_lesson_id(check: RowCheck, known: Known) -> str:
    """Return the present id of a lesson; nothing where the cell is empty."""
    text = check.text("lesson")
    lesson_id = known.lesson_ids.get(text)
    if text and lesson_id is None:
        check.refuse_unlisted("lesson", text, known.lesson_ids)
    return lesson_id or ""


def _read_entry(check: RowCheck) -> str:
    entry = check.text("entry")
    if len(entry) > _LONGEST_ENTRY:
        fact = f'the cell under "entry" is longer than {_LONGEST_ENTRY} characters'
        check.refuse("entry", fact, "leave it empty")
    return entry


def _find_measure(name: str, known: Known) -> Measure | None:
    """Return a measure of the course, or a question of its placement table as one."""
    if name in known.measures:
        return known.measures[name]
    question = known.questions.get(name)
    if question is None:
        return None
    return Measure(question.id, question.text, _SECONDS if question.is_timed else "")


def _read_reading(
    check: RowCheck, measure: Measure, known: Known
) -> tuple[Side | None, float | str | None, str]:
    side = _read_side(check, measure)
    words = _list_answers(measure, known)
    unit = check.text("unit")
    if unit and unit.casefold() != measure.unit.casefold():
        cure = f'write "{measure.unit}"' if measure.unit else "leave it empty"
        check.refuse("unit", f'"{unit}" is not the unit of "{measure.id}"', cure)
    if not check.require("value"):
        return side, None, measure.unit
    if words:
        return side, check.choose("value", words), measure.unit
    ends = SANE_RANGES.get(measure.unit, _ANY_RANGE)
    return side, check.read_number("value", ends), measure.unit


def _list_answers(measure: Measure, known: Known) -> tuple[str, ...]:
    """Return the words that a reading can be; none where it is a number."""
    if measure.id in known.measures:
        return list_words(measure)
    return tuple(known.questions[measure.id].answers)


def _read_side(check: RowCheck, measure: Measure) -> Side | None:
    text = check.text("side")
    if not measure.has_sides:
        if text:
            check.refuse("side", f'"{measure.id}" has no sides', "leave it empty")
        return None
    if not text:
        check.refuse("side", f'"{measure.id}" is read on each side', "write left or right")
        return None
    side = check.choose("side", list(Side))
    return Side(side) if side else None


def _refuse_other_lesson(check: RowCheck, known: Known, measure_id: str, lesson_id: str) -> None:
    """Note that a lesson records something else; nothing is known of one with a faulty file."""
    lessons = known.lessons_that_record(measure_id)
    if lesson_id in known.course.by_id and lesson_id not in lessons:
        fact = f'the lesson "{lesson_id}" doesn\'t record "{measure_id}"'
        cure = f"{offer(lessons)}, or none" if lessons else "leave it empty"
        check.refuse("lesson", fact, cure)
