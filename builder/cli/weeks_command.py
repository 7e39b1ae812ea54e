"""`tempoleaf weeks`: plan several weeks of classes for a group."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import DayOption, JsonOption, ProgramOption, ProjectOption
from builder.cli.open_program import open_program, stop, stop_on
from builder.cli.progress_bar import QuietOption, show_progress
from builder.planning.weeks.planned import PlannedWeeks, list_classes, plan_weeks
from builder.records.class_text import add_class_file
from builder.records.classes_folder import read_weeks_file
from builder.report.weeks_json import write_weeks_json
from builder.report.weeks_words import WeeksView, write_weeks


def weeks(  # noqa: PLR0913  # each is an option of the command
    file: Annotated[Path, typer.Argument(help="The file: courses/2026-12-01-winter.yml.")],
    *,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    on: DayOption = None,
    as_json: JsonOption = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write a class file for each day that has none yet.")
    ] = False,
    quiet: QuietOption = False,
) -> None:
    """Plan which strands come on which class day, so that most people reach the group's aim.

    Shows what each person is expected to work on, who reaches the aim when, who doesn't, why, and
    what would help. An expectation and no more: after each class, plan anew. It clears nobody:
    local rules and licensed clinicians come first. Exit code 0, 1 when the file or rows of records
    have faults, 2 when it couldn't run.
    """
    opened = open_program(project, program)
    path = opened.find_file(file)
    order, findings = read_weeks_file(opened.folder, path, opened.known)
    if order is None:
        stop((*opened.records.findings, *findings))
    for person in order.people:
        opened.find_person(person)
    with show_progress(quiet=quiet) as progress:
        progress.tell("searching the best weeks")
        planned = plan_weeks(opened.course, opened.program, order, opened.find_day(on))
    view = WeeksView(opened.course, opened.program.people, planned)
    print((write_weeks_json if as_json else write_weeks)(view))
    if write:
        _write_classes(opened.folder, planned)
    stop_on((*opened.records.findings, *findings))


def _write_classes(folder: Path, planned: PlannedWeeks) -> None:
    remark = f"From courses/{planned.order.title}.yml. Change it as you like."
    for order in list_classes(planned):
        path = add_class_file(folder, order, remark)
        said = f"written: {path}" if path else f"stands already, left alone: {order.title}.yml"
        typer.echo(said, err=True)
