"""`tempoleaf group`: all clients on one page, for a coach's screen and for paper."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.class_files import tell
from builder.planning.group import survey_group
from builder.publishing.group_view.view import view_group
from builder.publishing.group_view.write import write_group_files
from builder.reading.course_folder import read_teachable
from builder.records.classes_folder import read_classes, read_courses
from builder.records.folder import find_program_folder
from builder.records.record_folder import read_people, read_whole_records
from builder.records.studio import take_from_course
from builder.records.studio_file import read_studio_file
from builder.report.group_table import write_group_table


def group(
    *,
    on: Annotated[
        datetime | None, typer.Option(formats=["%Y-%m-%d"], help="The day; today if left out.")
    ] = None,
    program: Annotated[
        Path | None, typer.Option(help="The program folder; the project's only one if left out.")
    ] = None,
    project: Annotated[Path, typer.Option(help="The folder that holds content/.")] = Path(),
) -> None:
    """Write where all clients are, who is stuck, away or due, and whose clinician is to be asked.

    coach/group.html and coach/group.pdf say the same; both are for coaches only and clear nobody.
    Exit code 0, 1 when rows or files can't be read and are left out, 2 when it couldn't run.
    """
    folder = find_program_folder(project, program)
    course = read_teachable(project)
    reading = read_whole_records(folder, course)
    known, _ = read_people(folder, course)
    classes, of_classes = read_classes(folder, known)
    courses, of_courses = read_courses(folder, known)
    studio, of_studio = read_studio_file(folder, course)
    everybody = survey_group(
        course,
        replace(reading.program, classes=classes),
        on.date() if on else course.day,
        courses=courses,
        unreadable=reading.unreadable_people,
    )
    view = view_group(course, everybody, studio or take_from_course(course))
    written = write_group_files(view, project / "coach")
    print(write_group_table(course, everybody))
    print(f"It stands in {written[0]} and {written[1]}, for coaches only.")
    findings = (*reading.findings, *of_classes, *of_courses, *of_studio)
    tell(findings)
    raise typer.Exit(1 if findings else 0)
