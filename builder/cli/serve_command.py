"""`tempoleaf serve`: look at the site while writing; findings show in the pages."""

import os
import socket
import subprocess
import sys
from pathlib import Path
from typing import Annotated

import typer

from builder.checked.course import read_kept_course
from builder.errors import BuilderError
from builder.reading.folder_reader import COURSE_FILE

_HOST = "127.0.0.1"
"""Only this machine can see a preview."""


def serve(
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    port: Annotated[int, typer.Option(min=1024, max=65535, help="Where to listen.")] = 8000,
) -> None:
    """Show the site in the browser and build it again after every change.

    Faults in lessons don't stop it: they stand on top of the pages. Only this machine can see
    it. Stop it with Ctrl+C.
    """
    settings = find_settings(project)
    read_kept_course(project)
    refuse_taken(port)
    print(f"Look at http://{_HOST}:{port}/ and stop with Ctrl+C.", flush=True)
    command = [sys.executable, "-m", "mkdocs", "serve", "--quiet", "--livereload"]
    address = ["--dev-addr", f"{_HOST}:{port}", "--config-file", str(settings)]
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    try:
        code = subprocess.run(  # noqa: S603  # our own interpreter, no shell
            [*command, *address], check=False, env=environment
        ).returncode
    except KeyboardInterrupt:
        code = 0
    raise typer.Exit(2 if code else 0)


def refuse_taken(port: int) -> None:
    """Stop where another program listens already."""
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((_HOST, port))
        except OSError as error:
            cure = "stop what listens there, or name another one with --port"
            raise BuilderError(f"port {port} is taken", cure) from error


def find_settings(project: Path) -> Path:
    """Return the site's settings of a project, or say how to get some."""
    settings = project / "mkdocs.yml"
    if not settings.is_file():
        raise BuilderError(
            f'there is no site here: "{settings}" is missing',
            f"run this in a course's folder with mkdocs.yml and {COURSE_FILE}, "
            "or make one with: tempoleaf new DIR",
        )
    return settings
