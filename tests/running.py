"""Runs commands in this process as a shell would, without the start of another Python.

Whatever is about the process itself (signals, terminals, pipes, being killed, what is loaded)
starts one of its own.
"""

import signal
import sys
from collections.abc import Callable
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

import pytest
from mkdocs.__main__ import cli

from builder.cli.app import main


@dataclass(frozen=True)
class Done:
    """How a command ended, and what it said."""

    returncode: int
    stdout: str
    stderr: str


def run_tool(*words: str | Path, folder: Path = Path()) -> Done:
    """Run `tempoleaf` in a folder, to the end that its own start gives it."""
    return _run(main, "tempoleaf", words, folder)


def run_host(*words: str | Path, folder: Path) -> Done:
    """Run `mkdocs` in a folder."""
    return _run(cli, "mkdocs", words, folder)


def _run(start: Callable[[], object], name: str, words: tuple[str | Path, ...], at: Path) -> Done:
    out, err = StringIO(), StringIO()
    handlers = {number: signal.getsignal(number) for number in (signal.SIGTERM, signal.SIGHUP)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "argv", [name, *map(str, words)])
        patch.setenv("NO_MKDOCS_2_WARNING", "1")
        try:
            with chdir(at), redirect_stdout(out), redirect_stderr(err):
                start()
            code = 0
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else int(end.code is not None)
        finally:
            for number, handler in handlers.items():
                signal.signal(number, handler)
    return Done(code, out.getvalue(), err.getvalue())
