"""A program folder with its records, studio and classes in one value."""

from dataclasses import dataclass
from pathlib import Path

from builder.findings import Finding, Place
from builder.records.class_order import ClassOrder
from builder.records.classes_folder import read_classes, read_courses
from builder.records.folder import PEOPLE
from builder.records.record_folder import RecordsReading
from builder.records.studio import StudioSettings, take_from_course
from builder.records.studio_file import read_studio_file
from builder.records.table_file import CSV, find_table_file, show_path
from builder.records.weeks_order import WeeksOrder


@dataclass(frozen=True, slots=True)
class ProgramReading:
    """What was read of a program folder, plans left out."""

    records: RecordsReading
    studio: StudioSettings
    """By the course where the studio has no file of its own."""
    classes: tuple[ClassOrder, ...]
    courses: tuple[WeeksOrder, ...]
    people_place: Place
    """The file of people."""
    faults: tuple[Finding, ...]
    """Of studio and classes: with these nobody knows on which days there is class."""


def read_program(folder: Path, records: RecordsReading) -> ProgramReading:
    """Read studio, classes and courses to the records of a program folder."""
    known = records.known
    studio, faults = read_studio_file(folder, known.course)
    classes, class_faults = read_classes(folder, known)
    courses, course_faults = read_courses(folder, known)
    path, _ = find_table_file(folder, PEOPLE)
    return ProgramReading(
        records,
        studio or take_from_course(known.course),
        classes,
        courses,
        Place(show_path(folder, path or folder / f"{PEOPLE}{CSV}")),
        (*faults, *class_faults, *course_faults),
    )
