"""The files of a client sheet, opened for the command."""

from pathlib import Path

import typer

from builder.cli.class_files import tell
from builder.course.course import Course
from builder.reading.course_folder import read_teachable
from builder.records.folder import find_program_folder
from builder.records.program_reading import ProgramReading, read_program


def read_all(project: Path, given: Path | None) -> tuple[Course, ProgramReading]:
    """Read course and program folder; stop where nobody can know on which days there is class."""
    folder = find_program_folder(project, given)
    course = read_teachable(project)
    reading = read_program(folder, course)
    if reading.faults:
        tell(reading.faults)
        raise typer.Exit(1)
    return course, reading
