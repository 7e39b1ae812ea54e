"""`tempoleaf check`: look for faults in the order, the safety and the words of a course."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from builder.checks.run import check_course
from builder.findings import Finding, sort_findings, stops_publishing
from builder.reading.course_folder import CourseReading, read_course
from builder.records.folder import find_program_folder
from builder.records.program_folder import find_program_faults
from builder.report.as_json import write_json
from builder.report.github import write_annotations
from builder.report.sarif import write_sarif
from builder.report.summary import Summary, summarise
from builder.report.text import style_text, write_text


class Format(StrEnum):
    """The forms that findings can be printed in."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"
    GITHUB = "github"


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
    reading = read_course(project)
    findings, summary = find_all(reading)
    if program is not None:
        findings, summary = _add_program(reading, program, findings, summary)
    if form is Format.TEXT and sys.stdout.isatty():
        Console(soft_wrap=True, highlight=False).print(style_text(findings, summary))
    elif form is Format.TEXT:
        print(write_text(findings, summary))
    elif form is Format.JSON:
        print(write_json(findings, summary))
    elif form is Format.SARIF:
        print(write_sarif(findings))
    else:
        print(write_annotations(findings, summary))
    stopped = any(stops_publishing(finding, strict=strict) for finding in findings)
    raise typer.Exit(1 if stopped else 0)


def _add_program(
    reading: CourseReading, program: Path, findings: tuple[Finding, ...], summary: Summary
) -> tuple[tuple[Finding, ...], Summary]:
    """Put what is wrong in a program folder to the rest; its paths are those of the folder."""
    if reading.course is None:
        return findings, summary
    folder = find_program_folder(Path(), program)
    every = sort_findings((*findings, *find_program_faults(folder, reading.course)))
    return every, summarise(every, summary.lessons)


def find_all(reading: CourseReading) -> tuple[tuple[Finding, ...], Summary]:
    """Put what reading and checking found together, with the number of lessons."""
    course = reading.course
    if course is None:
        return reading.findings, summarise(reading.findings, 0)
    findings = sort_findings((*reading.findings, *check_course(course)))
    return findings, summarise(findings, len(course.lessons) + len(course.unreadable))
