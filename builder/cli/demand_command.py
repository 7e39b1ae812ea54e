"""`tempoleaf demand`: show what each lesson asks on the eight axes."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import JsonOption
from builder.reading.course_folder import read_course
from builder.report.demand_table import write_demand_json, write_demand_table


def demand(
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    as_json: JsonOption = False,
) -> None:
    """Print what every lesson asks on eight axes, and what rises over the lessons before it.

    Lessons whose files can't be read are left out. Exit code 0 when all could be read, 1 when
    some are left out, 2 when there is no course.
    """
    reading = read_course(project)
    if reading.course:
        write = write_demand_json if as_json else write_demand_table
        print(write(reading.course))
    if reading.course is None or reading.course.unreadable:
        typer.echo("some files can't be read and are left out; see: tempoleaf check.", err=True)
        raise typer.Exit(1)
