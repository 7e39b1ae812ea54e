"""A program folder with its records, studio and classes in one value."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.course.course import Course
from builder.errors import BuilderError
from builder.findings import Finding, Place
from builder.records.attendance import Attendance
from builder.records.class_order import ClassOrder
from builder.records.classes_folder import read_classes, read_courses
from builder.records.columns import ATTENDANCE, RESULTS, Column
from builder.records.event_rows import read_attendance, read_result
from builder.records.folder import ATTENDANCE as ATTENDANCE_FILE
from builder.records.folder import PEOPLE
from builder.records.folder import RESULTS as RESULTS_FILE
from builder.records.known import Known
from builder.records.record_folder import RecordsReading, find_events, read_people, read_records
from builder.records.result import Result
from builder.records.row_check import RowCheck
from builder.records.studio import StudioSettings, take_from_course
from builder.records.studio_file import read_studio_file
from builder.records.table_file import CSV, find_table_file, show_path
from builder.records.weeks_order import WeeksOrder

_EVENTS: tuple[
    tuple[str, Sequence[Column], Callable[[RowCheck, Known], Attendance | Result | None]], ...
] = ((RESULTS_FILE, RESULTS, read_result), (ATTENDANCE_FILE, ATTENDANCE, read_attendance))


@dataclass(frozen=True, slots=True)
class ProgramReading:
    """What was read of a program folder."""

    records: RecordsReading
    studio: StudioSettings
    classes: tuple[ClassOrder, ...]
    courses: tuple[WeeksOrder, ...]
    people_place: Place
    """The file of people."""
    faults: tuple[Finding, ...]
    """Of studio and classes: with these nobody knows on which days there is class."""
    half_known: frozenset[str]
    """Ids of people of whom a result or an attendance can't be read, so that one is left out."""

    def refuse_half_known(self, person_id: str) -> None:
        """Raise BuilderError where a row of a person is left out: it may say "too much"."""
        if person_id in self.half_known:
            raise BuilderError(
                f'rows of "{person_id}" can\'t be read, and nothing is planned from half a record',
                "mend what `tempoleaf check --program` finds in them",
            )


def read_program(folder: Path, course: Course) -> ProgramReading:
    """Read a program folder as a whole, plans left out."""
    records = read_records(folder, course)
    known, _ = read_people(folder, course)
    studio, faults = read_studio_file(folder, course)
    classes, class_faults = read_classes(folder, known)
    courses, course_faults = read_courses(folder, known)
    path, _ = find_table_file(folder, PEOPLE)
    return ProgramReading(
        records,
        studio or take_from_course(course),
        classes,
        courses,
        Place(show_path(folder, path or folder / f"{PEOPLE}{CSV}")),
        (*faults, *class_faults, *course_faults),
        frozenset(_list_half_known(folder, known)),
    )


def _list_half_known(folder: Path, known: Known) -> Iterator[str]:
    """Yield who has rows with faults; everybody where a whole file can't be read."""
    for name, columns, read in _EVENTS:
        checks, _ = find_events(folder, name, columns)
        if checks is None:
            yield from known.people
        for check in checks or ():
            if read(check, known) is None:
                who = check.text("person").casefold()
                yield known.person_ids.get(who) or known.ids_by_name.get(who) or who
