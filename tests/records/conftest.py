"""The small course, which class files are read against, and the people of a small studio."""

from datetime import date

import pytest

from builder.course.course import Course
from builder.reading.course_folder import read_course
from builder.records.class_order import ClassOrder
from tests.conftest import SMALL_COURSE

NAMES = {"C1": "Inola", "C2": "Tavi", "C3": "Wren"}


@pytest.fixture(scope="session")
def course() -> Course:
    read = read_course(SMALL_COURSE, today=date(2026, 11, 1)).course
    assert read is not None
    return read


@pytest.fixture
def order() -> ClassOrder:
    return ClassOrder(date(2026, 11, 24), "tuesday", 45, ("C3", "C1"), ("coach",), ())
