"""A bar in a terminal that tells how far a long command is."""

from rich.console import Console
from rich.progress import BarColumn, TaskID, TextColumn
from rich.progress import Progress as Bar

from builder.work.progress import Pace


class TerminalBar:
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
