"""The command `tempoleaf` with its words."""

import signal
import sys
from collections.abc import Iterable
from importlib import import_module
from typing import Annotated

import typer

from builder import __version__
from builder.errors import BuilderError

WORDS = ("new", "check", "explain", "demand", "build", "cards", "serve", "schema", "doctor")
"""In the order in which people need them; each is a function in the file of its name."""


def main() -> None:
    """Run the command line; exit 0 when all is well, 1 on findings, 2 when it can't go on."""
    signal.signal(signal.SIGTERM, _end)
    asked = [word for word in sys.argv[1:2] if word in WORDS]
    try:
        make_app(asked or WORDS)(prog_name="tempoleaf")
    except BuilderError as error:
        print(f"cannot go on: {error.message}; {error.cure}.", file=sys.stderr)
        sys.exit(2)


def make_app(words: Iterable[str]) -> typer.Typer:
    """Load the commands of some words; others may take long to load and aren't needed."""
    app = typer.Typer(
        add_completion=False,
        no_args_is_help=True,
        pretty_exceptions_enable=False,
        rich_markup_mode="markdown",
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback()(_describe)
    for word in words:
        app.command(word)(getattr(import_module(f"builder.cli.{word}_command"), word))
    return app


def _end(number: int, _frame: object) -> None:
    """End as an interrupt does, so that what is half made is cleared away."""
    sys.exit(128 + number)


def _print_version(asked: bool) -> None:
    if asked:
        print(f"tempoleaf {__version__}")
        raise typer.Exit


def _describe(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_print_version, is_eager=True, help="Print the version and exit."
        ),
    ] = False,
) -> None:
    """Check a movement and breathing course, then build its website and cards.

    The lessons are general exercise, not medical advice. Local rules and licensed clinicians
    come first.
    """
