"""`tempoleaf unlock`: open what was locked into a new folder."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.passphrase import ask_passphrase
from builder.errors import BuilderError
from builder.work.lockbox import unlock_folders


def unlock(
    file: Annotated[Path, typer.Argument(help="The locked file.")],
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="A new folder to open it into.")],
) -> None:
    """Open a locked file into a new folder; it asks for the passphrase.

    What is there already is never written over: give another folder, and compare by hand.
    """
    if not file.is_file():
        raise BuilderError(f'there is no file "{file}"', "see how its name is spelt")
    count = unlock_folders(file, folder, ask_passphrase(is_new=False))
    print(f"{count} files of {file} are in {folder}, unlocked; only this account may look in.")
    print("Delete that folder when you no longer need it.")
