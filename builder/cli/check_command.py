"""`tempoleaf check`: look for faults in the order, the safety and the words of a course."""

from pathlib import Path
from typing import Annotated

import typer

from builder.checked.answer import Checked
from builder.checked.result import check_project
from builder.cli.finding_format import Format, print_findings
from builder.findings import stops_publishing
from builder.report.summary import summarise


def check(
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    strict: Annotated[bool, typer.Option("--strict", help="Let warnings fail too.")] = False,
    program: Annotated[
        Path | None, typer.Option(help="A program folder to check as well: people, classes, plans.")
    ] = None,
    form: Annotated[
        Format, typer.Option("--format", help="What to print the findings as.")
    ] = Format.TEXT,
) -> None:
    """Check every file of a course and print all findings at once.

    What it says of a program folder names people by their ids. Exit code 0 when nothing stands in
    the way of publishing, 1 when something does, 2 when the check couldn't run.
    """
    checked = _check(project, program)
    findings, summary = checked.findings, summarise(checked.findings, checked.lessons)
    print_findings(form, findings, summary)
    stopped = any(stops_publishing(finding, strict=strict) for finding in findings)
    raise typer.Exit(1 if stopped else 0)


def _check(project: Path, program: Path | None) -> Checked:
    if program is None:
        return check_project(project)
    from builder.checked.program import check_with_program  # noqa: PLC0415  # loads in 0.4 s

    return check_with_program(project, program)
