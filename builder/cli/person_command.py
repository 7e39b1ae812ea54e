"""`tempoleaf person`: how one person goes on, what changed and what to look at."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from builder.planning.overview import find_person, survey_person
from builder.reading.course_folder import read_teachable
from builder.records.folder import find_program_folder
from builder.records.record_folder import read_whole_records
from builder.report.person_json import write_person_json
from builder.report.person_words import write_person


def person(
    person_id: Annotated[str, typer.Argument(metavar="ID", help="The person's id.")],
    *,
    program: Annotated[
        Path | None, typer.Option(help="The program folder; the project's only one if left out.")
    ] = None,
    project: Annotated[Path, typer.Option(help="The folder that holds content/.")] = Path(),
    on: Annotated[
        datetime | None, typer.Option(formats=["%Y-%m-%d"], help="The day; today if left out.")
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for a program to read.")
    ] = False,
) -> None:
    """Print how one person goes on in each strand, with reasons, trends and what to look at.

    For the coach's own eyes. It clears nobody: a licensed clinician and local rules come first.
    Exit code 0, 1 when rows can't be read and are left out, 2 when it couldn't run.
    """
    folder = find_program_folder(project, program)
    course = read_teachable(project)
    reading = read_whole_records(folder, course)
    who = find_person(reading.program, person_id, reading.unreadable_people)
    overview = survey_person(course, reading.program, who, on.date() if on else course.day)
    print((write_person_json if as_json else write_person)(course, overview))
    if reading.findings:
        typer.echo("\n".join(map(str, reading.findings)), err=True)
        raise typer.Exit(1)
