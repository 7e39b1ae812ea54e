"""`tempoleaf doctor`: tell what this machine lacks, each with its cure."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from builder.resources import find_templates


def doctor(
    json: Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")] = False,
) -> None:
    """Tell what this machine lacks for building a course, each with its cure.

    Exit code 0 when all that a build needs is there, 1 when something is missing.
    """
    # Loaded here, as no other command should wait for it.
    from builder.machine.examination import as_json, as_text  # noqa: PLC0415
    from builder.machine.needs import Places, all_ready, examine  # noqa: PLC0415

    templates = find_templates()
    places = Places(
        lock=templates.parent / "requirements.lock",
        fonts=templates / "fonts",
        cache=Path.cwd() / ".cache",
    )
    needs = examine(places, date.today())
    print(as_json(needs) if json else as_text(needs))
    raise typer.Exit(0 if all_ready(needs) else 1)
