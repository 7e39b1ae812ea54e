"""`tempoleaf weeks`: plan several weeks of classes for a group."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.class_files import tell
from builder.planning.overview import find_person
from builder.planning.weeks.planned import PlannedWeeks, list_classes, plan_weeks
from builder.reading.course_folder import read_teachable
from builder.records.class_text import add_class_file
from builder.records.classes_folder import read_weeks_file
from builder.records.folder import find_program_folder
from builder.records.record_folder import read_people, read_whole_records
from builder.report.weeks_json import write_weeks_json
from builder.report.weeks_words import WeeksView, write_weeks


def weeks(  # noqa: PLR0913  # each is an option of the command
    file: Annotated[Path, typer.Argument(help="The file: courses/2026-12-01-winter.yml.")],
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
    write: Annotated[
        bool, typer.Option("--write", help="Write a class file for each day that has none yet.")
    ] = False,
) -> None:
    """Plan which strands come on which class day, so that most people reach the group's aim.

    Shows what each person is expected to work on, who reaches the aim when, who doesn't, why, and
    what would help. An expectation and no more: after each class, plan anew. It clears nobody:
    local rules and licensed clinicians come first. Exit code 0, 1 when the file or rows of records
    have faults, 2 when it couldn't run.
    """
    folder = find_program_folder(project, program)
    course = read_teachable(project)
    reading = read_whole_records(folder, course)
    known, _ = read_people(folder, course)
    order, findings = read_weeks_file(folder, file if file.exists() else folder / file, known)
    tell((*reading.findings, *findings))
    if order is None:
        raise typer.Exit(1)
    for person in order.people:
        find_person(reading.program, person, reading.unreadable_people)
    planned = plan_weeks(course, reading.program, order, on.date() if on else course.day)
    view = WeeksView(course, reading.program.people, planned)
    print((write_weeks_json if as_json else write_weeks)(view))
    if write:
        _write_classes(folder, planned)
    if reading.findings:
        raise typer.Exit(1)


def _write_classes(folder: Path, planned: PlannedWeeks) -> None:
    remark = f"From courses/{planned.order.title}.yml. Change it as you like."
    for order in list_classes(planned):
        path = add_class_file(folder, order, remark)
        said = f"written: {path}" if path else f"stands already, left alone: {order.title}.yml"
        typer.echo(said, err=True)
