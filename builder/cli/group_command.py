"""`tempoleaf group`: all clients on one page, for a coach's screen and for paper."""

from dataclasses import replace
from pathlib import Path

from builder.cli.folder_options import DayOption, ProgramOption, ProjectOption
from builder.cli.open_program import open_program, stop_on
from builder.planning.group import survey_group
from builder.publishing.group_view.view import view_group
from builder.publishing.group_view.write import write_group_files
from builder.records.program_reading import read_program
from builder.report.group_table import write_group_table


def group(
    *,
    on: DayOption = None,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
) -> None:
    """Write where all clients are, who is stuck, away or due, and whose clinician is to be asked.

    coach/group.html and coach/group.pdf say the same; both are for coaches only and clear nobody.
    Exit code 0, 1 when rows or files can't be read and are left out, 2 when it couldn't run.
    """
    opened = open_program(project, program)
    reading = read_program(opened.folder, opened.records)
    everybody = survey_group(
        opened.course,
        replace(opened.program, classes=reading.classes),
        opened.find_day(on),
        courses=reading.courses,
        unreadable=opened.known.unreadable_people,
    )
    view = view_group(opened.course, everybody, reading.studio)
    written = write_group_files(view, opened.coach_folder)
    print(write_group_table(opened.course, everybody))
    print(f"It stands in {written[0]} and {written[1]}, for coaches only.")
    stop_on((*opened.records.findings, *reading.faults))
