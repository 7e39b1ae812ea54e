"""Options that several commands share: which folders, which day, which form."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

ProjectOption = Annotated[Path, typer.Option(help="The folder that holds content/.")]
ProgramOption = Annotated[
    Path | None, typer.Option(help="The program folder; the project's only one if left out.")
]
DayOption = Annotated[
    datetime | None, typer.Option(formats=["%Y-%m-%d"], help="The day; today if left out.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")]
