"""`tempoleaf lock`: put all that is private into one file that only a passphrase opens."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProgramOption, ProjectOption
from builder.cli.passphrase import ask_passphrase
from builder.records.folder import find_program_folder
from builder.work.lockbox import lock_folders


def lock(
    *,
    out: Annotated[
        Path | None, typer.Option(help="The locked file; coach.age in the project if left out.")
    ] = None,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
) -> None:
    """Lock a copy of coach/ and of the program folder into one file, in the age format.

    It asks twice for a passphrase, or takes TEMPOLEAF_PASSPHRASE from the environment; whoever
    loses it can't open the file, and nobody else can help. The file is opened again before it
    counts. The folders themselves stay as they are.
    """
    folders = [find_program_folder(project, program), project / "coach"]
    folders = [folder for folder in folders if folder.is_dir()]
    target = out or project / "coach.age"
    count = lock_folders(folders, target, ask_passphrase(is_new=True))
    names = " and ".join(str(folder) for folder in folders)
    print(f"{count} files of {names} are locked in {target}; it was opened again to prove it.")
    print("The folders themselves are still there, unlocked. Delete them yourself if you want to.")
