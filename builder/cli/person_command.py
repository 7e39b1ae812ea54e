"""`tempoleaf person`: how one person goes on, what changed and what to look at."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import DayOption, JsonOption, ProgramOption, ProjectOption
from builder.cli.open_program import open_program, stop_on
from builder.planning.overview import survey_person
from builder.report.person_json import write_person_json
from builder.report.person_words import write_person


def person(
    person_id: Annotated[str, typer.Argument(metavar="ID", help="The person's id.")],
    *,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    on: DayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Print how one person goes on in each strand, with reasons, trends and what to look at.

    For the coach's own eyes. It clears nobody: a licensed clinician and local rules come first.
    Exit code 0, 1 when rows can't be read and are left out, 2 when it couldn't run.
    """
    opened = open_program(project, program)
    who = opened.find_person(person_id)
    overview = survey_person(opened.course, opened.program, who, opened.find_day(on))
    print((write_person_json if as_json else write_person)(opened.course, overview))
    stop_on(opened.records.findings)
