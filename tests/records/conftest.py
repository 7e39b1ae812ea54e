"""A small studio for the tests of records: a course with every kind of measure, and people."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.reading.course_folder import read_course
from builder.records.class_order import ClassOrder
from builder.records.known import Known
from builder.records.person import Person
from tests.conftest import SMALL_COURSE, WriteCourse

TODAY = date(2026, 11, 26)
LESSON = "content/lessons/breath/wide-ribs.md"
MEASURES = """\
  first-mover: {title: what moves first, unit: "chest, belly or both"}
  reach-cm: {title: gap left to the floor, unit: cm, sides: true}
"""
PLACEMENT = """\
ask_first: [You are ill]
questions:
  - {id: known, text: What do you know?, answers: {new: Nothing, some: Something}}
  - {id: hold, text: How long?, lesson: short-hold, timed: true}
start:
  - {strand: breath, ways: [{lesson: hand-on-belly, why: It is the first.}]}
  - {strand: count, ways: [{why: It builds on the breath.}]}
"""
PEOPLE = """\
id,display name,birth year,sex for lung reference,height cm,weight kg,conditions,goal
p-01,Ada Quill,1980,female,165,60,pregnancy,Walk further
p-02,Bo Tern,1972,,,,,
"""

CALLED = {"C1": "Inola", "C2": "Tavi", "C3": "Wren"}

WriteProgram = Callable[..., Path]


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    course = (SMALL_COURSE / "content/course.yml").read_text(encoding="utf-8") + MEASURES
    lesson = (SMALL_COURSE / LESSON).read_text(encoding="utf-8")
    lesson = lesson.replace("props:", "measures: [reach-cm]\nwas: [broad-ribs]\nprops:", 1)
    files = {"content/course.yml": course, LESSON: lesson, "content/placement.yml": PLACEMENT}
    return write_course(files)


@pytest.fixture
def course(project: Path) -> Course:
    reading = read_course(project)
    assert [str(each) for each in reading.findings] == []
    assert reading.course is not None
    return reading.course


@pytest.fixture
def write_program(project: Path) -> WriteProgram:
    """Write the files of a program folder; people are those above if none are given."""

    def write(files: Mapping[str, str] | None = None, name: str = "program") -> Path:
        folder = project / name
        (folder / "classes").mkdir(parents=True, exist_ok=True)
        for path, text in ({"people.csv": PEOPLE} | dict(files or {})).items():
            (folder / path).write_text(text, encoding="utf-8", newline="")
        return folder

    return write


@pytest.fixture(scope="session")
def small_course() -> Course:
    """Read the small course as it is, once for all files that are read against it."""
    read = read_course(SMALL_COURSE, today=date(2026, 11, 1)).course
    assert read is not None
    return read


@pytest.fixture(scope="session")
def known(small_course: Course) -> Known:
    """Know three people, and that a fourth has a row that can't be read."""
    people = {person_id: Person(person_id, name) for person_id, name in CALLED.items()}
    return Known(small_course, date(2026, 11, 1), people, frozenset({"C4"}))


@pytest.fixture
def order() -> ClassOrder:
    return ClassOrder(date(2026, 11, 24), "tuesday", 45, ("C3", "C1"), ("coach",), ())
