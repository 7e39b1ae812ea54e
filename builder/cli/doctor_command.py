"""`tempoleaf doctor`: tell what this machine lacks, each with its cure."""

import dataclasses
import json as notation
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from builder.machine.needs import Need, Places, all_ready, examine
from builder.resources import find_templates


def doctor(
    json: Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")] = False,
) -> None:
    """Tell what this machine lacks for building a course, each with its cure.

    Exit code 0 when all that a build needs is there, 1 when something is missing.
    """
    templates = find_templates()
    places = Places(
        lock=templates.parent / "requirements.lock",
        fonts=templates / "fonts",
        cache=Path.cwd() / ".cache",
    )
    needs = examine(places, date.today())
    print(as_json(needs) if json else as_text(needs))
    raise typer.Exit(0 if all_ready(needs) else 1)


def as_text(needs: Sequence[Need]) -> str:
    """Write a line for each need, and one more for its cure."""
    lines = []
    for need in needs:
        lines.append(f"{need.state:<8} {need.name:<10} {need.fact}")
        if need.cure:
            lines.append(f"{'':<19} cure: {need.cure}")
    lines.append("All that a build needs is here." if all_ready(needs) else "Something is missing.")
    return "\n".join(lines)


def as_json(needs: Sequence[Need]) -> str:
    """Write the needs as one JSON object."""
    listed = [dataclasses.asdict(need) for need in needs]
    return notation.dumps({"ready": all_ready(needs), "needs": listed}, indent=2)
