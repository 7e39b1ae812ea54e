"""Class files that the tool writes are read back as they were meant."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from builder.course.course import Course
from builder.reading.course_folder import read_course
from builder.records.class_file import read_class
from builder.records.class_order import ClassOrder
from builder.records.class_text import add_class_file, write_class_text
from builder.records.known import Known
from builder.records.person import Person
from tests.conftest import SMALL_COURSE

TODAY = date(2026, 11, 26)
ORDER = ClassOrder(date(2026, 12, 1), "winter", 60, ("C1", "no"), ("K1",), ("breath",))


def read_small() -> Course:
    course = read_course(SMALL_COURSE, today=TODAY).course
    assert course is not None
    return course


@given(st.lists(st.sampled_from(["C1", "no", "1e3", "null", "C-2"]), min_size=1, unique=True))
def test_what_is_written_is_read_back(people: list[str]) -> None:
    known = Known(read_small(), TODAY, {name: Person(name, name) for name in people})
    order = replace(ORDER, people=tuple(people), coaches=('Ó "K": #1',), props={"mat": 3})
    path = f"classes/{order.title}.yml"
    read, findings = read_class(write_class_text(order, "From a test."), path, known)
    assert findings == []
    assert read is not None
    assert replace(read, place=order.place) == order


def test_a_class_that_works_on_all_strands_is_read_back() -> None:
    known = Known(read_small(), TODAY, {name: Person(name, name) for name in ORDER.people})
    order = replace(ORDER, strands=())
    read, findings = read_class(write_class_text(order, "From a test."), order.title, known)
    assert findings == []
    assert read is not None
    assert read.strands == ()


def test_a_class_file_that_stands_is_left_as_it_is(tmp_path: Path) -> None:
    path = add_class_file(tmp_path, ORDER, "From a test.")
    assert path == tmp_path / "classes/2026-12-01-winter.yml"
    path.write_text("mine\n", encoding="utf-8")
    assert add_class_file(tmp_path, ORDER, "From a test.") is None
    assert path.read_text(encoding="utf-8") == "mine\n"
