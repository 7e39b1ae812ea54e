"""`tempoleaf forget`: take everything of one person away."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProgramOption, ProjectOption
from builder.errors import BuilderError
from builder.publishing.forgetting.forget import forget as forget_person
from builder.publishing.forgetting.forget import plan_forgetting, write_forgetting
from builder.records.folder import find_program_folder


def forget(
    person_id: Annotated[str, typer.Argument(metavar="ID", help="The person's id.")],
    *,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    yes: Annotated[bool, typer.Option("--yes", help="Don't ask for the id again.")] = False,
) -> None:
    """Take away everything of one person: rows, names in classes and plans, printed sheets.

    It says first what will go, and asks for the id again. Where somebody is named in words, as in
    a note, it says where and takes nothing away until you have changed that by hand. Copies,
    backups and the history of a version control are yours to clear. Exit code 0 when nothing is
    left, 1 when something has to be changed by hand, 2 when it couldn't run.
    """
    plan = plan_forgetting(find_program_folder(project, program), project / "coach", person_id)
    print(write_forgetting(plan), flush=True)
    if plan.by_hand:
        print("Nothing was taken away.")
        raise typer.Exit(1)
    if not yes and typer.prompt("Type the id again to take it all away") != person_id:
        raise BuilderError("that is another id, and nothing was taken away", "run this again")
    left = forget_person(plan)
    if left:
        print("\n".join(("Still named in:", *(f"- {place}" for place in left))))
        raise typer.Exit(1)
    print(f'Nothing in {plan.folder} and {plan.coach} names "{person_id}" any more: all was read.')
    print("Backups, copies, sent sheets and the history of a version control are yours to clear.")
