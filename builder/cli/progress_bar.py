"""The bar that tells how far a long command is, and the option that keeps it quiet."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated

import typer
from rich.console import Console
from rich.progress import BarColumn, TaskID, TextColumn
from rich.progress import Progress as Bar

from builder.work.progress import SILENT, Lines, Pace, Progress, watch, write_to_stderr

QuietOption = Annotated[bool, typer.Option("--quiet", "-q", help="Don't tell how far it is.")]


@contextmanager
def show_progress(*, quiet: bool = False) -> Iterator[Progress]:
    """Show how far a job is on stderr: a bar in a terminal, else a line in ten seconds."""
    if quiet:
        yield SILENT
        return
    bar = _TerminalBar() if sys.stderr.isatty() else None
    with watch(bar.show if bar else Lines(write_to_stderr).show) as progress:
        yield progress


class _TerminalBar:
    """A bar for each stage, which goes when the stage is over."""

    def __init__(self) -> None:
        console = Console(stderr=True)
        columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.fields[said]}"))
        self._bar = Bar(
            *columns,
            console=console,
            transient=True,
            auto_refresh=False,
            redirect_stdout=False,  # what is asked for stays as it is; stages end before it
        )
        self._task: TaskID | None = None

    def show(self, pace: Pace | None) -> None:
        """Draw a pace, or take the bar away."""
        if pace is None:
            self._bar.stop()
            if self._task is not None:
                self._bar.remove_task(self._task)
            self._task = None
            return
        if self._task is None:
            self._task = self._bar.add_task(pace.name, total=pace.total or None, said="")
            self._bar.start()
        said = pace.say().removeprefix(f"{pace.name}: ")
        self._bar.update(
            self._task, completed=pace.done, total=pace.total or None, said=said, refresh=True
        )
