"""Options of `tempoleaf cards` that are said or not."""

from typing import Annotated

import typer

CoachOption = Annotated[
    bool, typer.Option("--coach", help="With notes on the back, into coach/cards/.")
]
SheetsOption = Annotated[
    bool, typer.Option("--sheets", help="Also several cards on a sheet, with cut marks.")
]
PacksOption = Annotated[
    bool, typer.Option("--packs", help="Also one PDF for each strand and for the course.")
]
ArchiveOption = Annotated[bool, typer.Option("--archive", help="As PDF/A-2a, to keep for decades.")]
VerapdfOption = Annotated[
    bool, typer.Option("--verapdf", help="Also ask verapdf, where you have installed it.")
]
