"""`tempoleaf sheet`: people's practice at home as PDFs to take along, each with a calendar."""

import os
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from time import perf_counter
from typing import Annotated

import typer

from builder.cli.cluster_option import ClusterOption
from builder.cli.folder_options import DayOption, ProgramOption, ProjectOption
from builder.cli.open_program import OpenProgram, open_program, stop_on, tell
from builder.cli.press_note import tell_press
from builder.cli.progress_bar import QuietOption, show_progress
from builder.errors import BuilderError
from builder.planning.home_plan import MOST_WEEKS, WEEKS
from builder.publishing.client_sheet.job import run_sheet
from builder.publishing.client_sheet.keeping import (
    find_sheet_folder,
    keep_sheet,
    mend_sheets,
    read_earlier_calendar,
)
from builder.publishing.client_sheet.many import Ending, Outcome, make_sheets
from builder.publishing.client_sheet.preparing import Desk, Wishes
from builder.publishing.client_sheet.view import SheetForm
from builder.records.program_reading import read_program
from builder.report.counted import count
from builder.report.sheet_words import write_sheet_summary
from builder.work.cluster import open_workers
from builder.work.progress import Progress


def sheet(  # noqa: PLR0913  # each is an option of the command
    people: Annotated[
        list[str] | None, typer.Argument(metavar="ID...", help="The ids of people.")
    ] = None,
    *,
    everybody: Annotated[
        bool, typer.Option("--all", help="Sheets for all people of the program.")
    ] = False,
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
    cluster: ClusterOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write people's sheets and calendars into coach/people/ID: lessons, days, cautions, trends.

    Only lessons that they did with a coach, that nothing bars for them, and that suit their days.
    It clears nobody: while a clinician's answer is open, there are no lessons on it.

    For several people, or all of them with --all, sheets that stand already and are made from the
    same things are left as they are, so that a run that was ended goes on where it stopped, on the
    same day or with the same --on. With --cluster, what stands on a sheet (a name, cautions,
    conditions) goes to the machines of the cluster: use your own, over TLS.

    Exit code 0, 1 when rows can't be read, a name can't be printed or a sheet failed, 2 when it
    couldn't run.
    """
    named = tuple(people or ())
    if bool(named) is everybody:
        raise BuilderError("it isn't clear whose sheets are meant", "give ids of people, or --all")
    opened = open_program(project, program)
    form = SheetForm.LARGE if large else SheetForm.REGULAR
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    wishes = Wishes(opened.find_day(on), weeks, form, at.time() if at else None, epoch)
    desk = _open_desk(opened, wishes)
    tell_press()
    if len(named) == 1 and not cluster:
        _write_one(desk, project, named[0])
    else:
        with show_progress(quiet=quiet) as progress:
            outcomes = _write_all(desk, named, project, cluster, progress)
        _stop_on_failures(outcomes, desk)


def _open_desk(opened: OpenProgram, wishes: Wishes) -> Desk:
    reading = read_program(opened.folder, opened.records)
    stop_on(reading.faults)
    course = replace(opened.course, day=wishes.day)  # whatever is asked of it is asked of that day
    return Desk(course, reading, wishes)


def _write_all(
    desk: Desk, named: tuple[str, ...], project: Path, cluster: str, progress: Progress
) -> tuple[Outcome, ...]:
    started = perf_counter()
    with open_workers(cluster, is_private=True) as pool:
        outcomes = make_sheets(desk, named or desk.list_people(), project, pool, progress)
        progress.tell("")
    print(_sum_up(outcomes, perf_counter() - started))
    print(f"They stand in {project / 'coach' / 'people'}: give each to its own person only.")
    return outcomes


def _write_one(desk: Desk, project: Path, person_id: str) -> None:
    source = desk.gather(person_id)
    mend_sheets(project)
    folder = find_sheet_folder(project, source.person.id)
    prepared = desk.prepare(source, read_earlier_calendar(folder))
    made = run_sheet(prepared.job)
    keep_sheet(folder, made, "" if made.findings else source.key)
    files = [str(folder / name) for name in made.files]
    print(write_sheet_summary(desk.course, prepared.plan, made.pages, files))
    stop_on((*desk.reading.records.findings, *made.findings))


def _sum_up(outcomes: tuple[Outcome, ...], seconds: float) -> str:
    counts = [
        f"{sum(1 for each in outcomes if each.ending is ending)} {ending.value}"
        for ending in Ending
    ]
    said = f"{count(len(outcomes), 'sheet')} in {seconds:.1f} s: {', '.join(counts)}."
    return f"{said}\nEvery caution, lesson, dose and stop sign of each was read back and found."


def _stop_on_failures(outcomes: tuple[Outcome, ...], desk: Desk) -> None:
    for each in outcomes:
        if each.ending is Ending.FAILED:
            typer.echo(f"{each.person_id}: {each.reason}.", err=True)
    told = (finding for outcome in outcomes for finding in outcome.findings)
    findings = (*desk.reading.records.findings, *told)
    tell(findings)
    if findings or any(each.ending is Ending.FAILED for each in outcomes):
        raise typer.Exit(1)
