"""`tempoleaf sheet`: one person's practice at home as a PDF to take along, and a calendar."""

import os
from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import DayOption, ProgramOption, ProjectOption
from builder.cli.open_program import open_program, stop_on
from builder.planning.home_plan import MOST_WEEKS, WEEKS, find_class_days, plan_home
from builder.planning.overview import survey_person
from builder.publishing.calendar import find_stamp
from builder.publishing.client_sheet.in_words import SheetOrder
from builder.publishing.client_sheet.keeping import (
    find_sheet_folder,
    keep_sheet,
    read_earlier_calendar,
)
from builder.publishing.client_sheet.making import Wishes, make_sheet
from builder.publishing.client_sheet.view import SheetForm
from builder.records.program_reading import read_program
from builder.report.sheet_words import write_sheet_summary


def sheet(  # noqa: PLR0913  # each is an option of the command
    person_id: Annotated[str, typer.Argument(metavar="ID", help="The person's id.")],
    *,
    weeks: Annotated[int, typer.Option(min=1, max=MOST_WEEKS, help="For how many weeks.")] = WEEKS,
    large: Annotated[
        bool, typer.Option("--large", help="Large print: 18 points and more.")
    ] = False,
    at: Annotated[
        datetime | None,
        typer.Option(formats=["%H:%M"], help="When practice begins; whole days if left out."),
    ] = None,
    on: DayOption = None,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
) -> None:
    """Write one person's sheet and calendar into coach/people/ID: lessons, days, cautions, trends.

    Only lessons that they did with a coach, that nothing bars for them, and that suit their days.
    It clears nobody: while a clinician's answer is open, there are no lessons on it. Exit code 0,
    1 when rows can't be read or a name can't be printed, 2 when it couldn't run.
    """
    opened = open_program(project, program)
    course, records = opened.course, opened.records
    reading = read_program(opened.folder, opened.records)
    stop_on(reading.faults)
    person = opened.find_person(person_id)
    records.refuse_half_known(person.id)
    overview = survey_person(course, opened.program, person, opened.find_day(on))
    days = find_class_days(reading.classes, reading.courses, person.id)
    plan = plan_home(course, opened.program, overview, days, weeks=weeks)
    folder = find_sheet_folder(project, person.id)
    stamp = find_stamp(overview, opened.program, os.environ.get("SOURCE_DATE_EPOCH"))
    made = make_sheet(
        SheetOrder(course, reading.studio, overview, plan),
        Wishes(
            SheetForm.LARGE if large else SheetForm.REGULAR,
            stamp,
            reading.people_place,
            at.time() if at else None,
            read_earlier_calendar(folder),
        ),
    )
    keep_sheet(folder, made)
    files = [str(folder / name) for name in made.files]
    print(write_sheet_summary(course, plan, made.pages, files))
    stop_on((*records.findings, *made.findings))
