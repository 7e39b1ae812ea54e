"""A whole program folder: everything that is wrong in any of its files."""

from collections.abc import Iterator
from pathlib import Path

from builder.course.course import Course
from builder.findings import Finding
from builder.records.plan_file import read_plan_file
from builder.records.program_reading import read_program
from builder.records.record_folder import read_records


def find_program_faults(folder: Path, course: Course) -> Iterator[Finding]:
    """Yield the findings of records, studio, classes, courses and plans of a program folder."""
    records = read_records(folder, course)
    yield from records.findings
    reading = read_program(folder, records)
    yield from reading.faults
    for order in reading.classes:
        yield from read_plan_file(folder, records.known, order)[1]
