"""The bar that tells how far a long command is, and the option that keeps it quiet."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Annotated

import typer

from builder.work.progress import SILENT, Lines, Pace, Progress, watch, write_to_stderr

QuietOption = Annotated[bool, typer.Option("--quiet", "-q", help="Don't tell how far it is.")]


@contextmanager
def show_progress(*, quiet: bool = False) -> Iterator[Progress]:
    """Show how far a job is on stderr: a bar in a terminal, else a line in ten seconds."""
    if quiet:
        yield SILENT
        return
    with watch(_open_bar() if sys.stderr.isatty() else Lines(write_to_stderr).show) as progress:
        yield progress


def _open_bar() -> Callable[[Pace | None], None]:
    from builder.cli.terminal_bar import TerminalBar  # noqa: PLC0415  # loads slowly

    return TerminalBar().show
