"""A program to plan for, opened alike for every command that plans for people."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import NoReturn

import typer

from builder.course.course import Course
from builder.findings import Finding
from builder.planning.overview import find_person
from builder.planning.permission import refuse_lost_notices
from builder.reading.course_folder import read_teachable
from builder.records.folder import find_program_folder
from builder.records.known import Known
from builder.records.person import Person
from builder.records.program import Program
from builder.records.record_folder import RecordsReading, read_whole_records


@dataclass(frozen=True, slots=True)
class OpenProgram:
    """A course and the records of its people, as whole as planning needs them."""

    project: Path
    folder: Path
    course: Course
    records: RecordsReading

    @property
    def program(self) -> Program:
        """Return the people and the rows that are sound."""
        return self.records.program

    @property
    def known(self) -> Known:
        """Return what files of the folder may name."""
        return self.records.known

    @property
    def coach_folder(self) -> Path:
        """Return where all goes that is for coaches only."""
        return self.project / "coach"

    def find_person(self, person_id: str) -> Person:
        """Return a person; BuilderError for an unknown one, and for one whose row has faults."""
        return find_person(self.program, person_id, self.known.unreadable_people)

    def find_file(self, given: Path) -> Path:
        """Return a file as it was given, or in the program folder."""
        return given if given.exists() else self.folder / given

    def find_day(self, on: datetime | None) -> date:
        """Return the day that was asked for, else the course's own."""
        return on.date() if on else self.course.day


def open_program(project: Path, given: Path | None) -> OpenProgram:
    """Read course and records; BuilderError where anything is lost that could bar somebody.

    That is the course file, its placement table, a listed notice, or the whole of a file of
    records. Rows that are left out are findings of the records.
    """
    folder = find_program_folder(project, given)
    course = read_teachable(project)
    refuse_lost_notices(course)
    return OpenProgram(project, folder, course, read_whole_records(folder, course))


def tell(findings: Sequence[Finding]) -> None:
    """Print findings beside what was asked for."""
    if findings:
        typer.echo("\n".join(map(str, findings)), err=True)


def stop(findings: Sequence[Finding]) -> NoReturn:
    """Print findings and end with exit code 1."""
    tell(findings)
    raise typer.Exit(1)


def stop_on(findings: Sequence[Finding]) -> None:
    """Print findings and end with exit code 1 where there are any."""
    if findings:
        stop(findings)
