"""`tempoleaf forget`: take everything of one person away."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProgramOption, ProjectOption
from builder.errors import BuilderError
from builder.publishing.forgetting.forget import forget as forget_person
from builder.publishing.forgetting.forget import plan_forgetting, write_forgetting
from builder.records.folder import COACH, find_program_folder

_ALL_ELSE = "--rest"


def forget(
    person_id: Annotated[str, typer.Argument(metavar="ID", help="The person's id.")],
    *,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    yes: Annotated[bool, typer.Option("--yes", help="Don't ask for the id again.")] = False,
    rest: Annotated[
        bool, typer.Option("--rest", help="Do what can be done; the rest is told at the end.")
    ] = False,
) -> None:
    """Take away everything of one person: rows, names in classes and plans, printed sheets.

    It says first what will go, and asks for the id again. Where somebody is named in words, as in
    a note, it says file, line and words, and takes nothing away until you have changed that by
    hand; with --rest it takes all else away and tells at the end what stays. Copies, backups and
    the history of a version control are yours to clear. Exit code 0 when nothing is left, 1 when
    something has to be changed by hand, 2 when it couldn't run.
    """
    plan = plan_forgetting(find_program_folder(project, program), project / COACH, person_id)
    print(write_forgetting(plan), flush=True)
    if plan.by_hand and not rest:
        print(f"Nothing was taken away. Change these first, or do all else with: {_ALL_ELSE}")
        raise typer.Exit(1)
    if not yes and typer.prompt("Type the id again to take it all away") != person_id:
        raise BuilderError("that is another id, and nothing was taken away", "run this again")
    left = forget_person(plan)
    if left:
        print("All else was taken away. Still to change by hand; keep this list, because a")
        print("further run knows the id only and not the name any more:")
        print("\n".join(f"- {place}" for place in left))
        raise typer.Exit(1)
    print(f'Nothing in {plan.folder} and {plan.coach} names "{person_id}" any more: all was read.')
    print("Backups, copies, locked files, sent sheets and the history of a version control are")
    print("yours to clear.")
