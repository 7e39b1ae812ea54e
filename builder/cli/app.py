"""The command `tempoleaf` with its words."""

import sys
from typing import Annotated

import typer

from builder import __version__
from builder.cli.build_command import build
from builder.cli.check_command import check
from builder.cli.demand_command import demand
from builder.cli.doctor_command import doctor
from builder.cli.explain_command import explain
from builder.cli.new_command import new
from builder.cli.schema_command import schema
from builder.cli.serve_command import serve
from builder.errors import BuilderError

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
for command in (check, explain, demand, schema, build, serve, doctor, new):
    app.command()(command)


def main() -> None:
    """Run the command line; exit 0 when all is well, 1 on findings, 2 when it can't go on."""
    try:
        app(prog_name="tempoleaf")
    except BuilderError as error:
        print(f"cannot go on: {error.message}; {error.cure}.", file=sys.stderr)
        sys.exit(2)


def _print_version(asked: bool) -> None:
    if asked:
        print(f"tempoleaf {__version__}")
        raise typer.Exit


@app.callback()
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
