"""The starter course, its placement table as the page has it, and people to place in it."""

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path

from builder.course.course import Course
from builder.course.placement import Placement
from builder.reading.course_folder import read_course
from builder.records.person import Person
from builder.records.result import Result

ROOT = Path(__file__).parents[2]
TODAY = date(2026, 11, 26)


@cache
def read_starter() -> Course:
    """Read the course of this project."""
    course = read_course(ROOT, today=TODAY).course
    assert course is not None
    return course


def get_table() -> Placement:
    """Return its placement table."""
    table = read_starter().placement
    assert table is not None
    return table


def make_person(*conditions: str, cleared: Mapping[str, date] | None = None) -> Person:
    """Make somebody of whom nothing but conditions is known."""
    return Person("ro-1", "Ro", conditions=conditions, cleared=cleared or {})


def make_result(
    measure: str, value: float | str, lesson: str = "", day: date = TODAY, person: str = "ro-1"
) -> Result:
    """Make a reading of that person."""
    return Result(day, person, measure, None, value, lesson_id=lesson)


def write_table(table: Placement) -> list[dict[str, object]]:
    """Return the table as the page writes it."""
    return [
        {
            "strand": start.strand_id,
            "ways": [
                {
                    "when": [
                        [
                            c.question_id,
                            sorted(c.answers)
                            or {"least": c.from_seconds, "under": c.under_seconds},
                        ]
                        for c in way.conditions
                    ],
                    "lesson": way.lesson_id,
                    "why": way.why,
                }
                for way in start.ways
            ],
        }
        for start in table.starts
    ]
