"""A whole program folder: everything that is wrong in any of its files."""

from collections.abc import Iterator
from pathlib import Path

from builder.course.course import Course
from builder.findings import Finding
from builder.records.classes_folder import read_classes, read_courses
from builder.records.plan_file import read_plan_file
from builder.records.record_folder import read_people, read_records
from builder.records.studio_file import read_studio_file


def find_program_faults(folder: Path, course: Course) -> Iterator[Finding]:
    """Yield the findings of records, studio, classes, plans and courses of a program folder."""
    yield from read_records(folder, course).findings
    yield from read_studio_file(folder, course)[1]
    known, _ = read_people(folder, course)
    orders, findings = read_classes(folder, known)
    yield from findings
    for order in orders:
        yield from read_plan_file(folder, known, order)[1]
    yield from read_courses(folder, known)[1]
