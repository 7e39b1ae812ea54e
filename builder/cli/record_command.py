"""`tempoleaf record`: add the rows of a class screen to a program, each once."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProgramOption, ProjectOption
from builder.findings import stops_publishing
from builder.reading.course_folder import read_teachable
from builder.records.folder import find_program_folder
from builder.records.recording import record_export
from builder.report.recording_text import write_recording


def record(
    file: Annotated[Path, typer.Argument(help="The file of rows: CSV or XLSX.")],
    *,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Show what would be added, and write nothing.")
    ] = False,
) -> None:
    """Add what a class screen exported to results.csv and attendance.csv.

    Rows that are there already are left out, so a file may be given twice. A row that can't be
    recorded is a finding, and is kept with its reason in the program's folder not-recorded/. Exit
    code 0, 1 when a row was kept aside, 2 when it couldn't run.
    """
    folder = find_program_folder(project, program)
    course = read_teachable(project)
    recording = record_export(file, folder, course, is_trial=dry_run)
    print(write_recording(recording, is_trial=dry_run))
    stopped = any(stops_publishing(finding, strict=False) for finding in recording.findings)
    raise typer.Exit(1 if stopped else 0)
