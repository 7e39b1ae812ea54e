"""The command `tempoleaf` with its words."""

import ast
import gc
import os
import signal
import sys
import tempfile
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from errno import EDQUOT, ENOSPC
from importlib import import_module
from io import TextIOWrapper
from keyword import iskeyword
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from builder import __version__
from builder.errors import BuilderError
from builder.findings import spell_out

WORDS = (
    *(
        "new",
        "check",
        "explain",
        "demand",
        "tempo",
        "ladder",
        "build",
        "cards",
        "figure",
        "serve",
        "release",
        "translate",
        "publish",
        "prove",
        "record",
        "person",
        "class",
        "weeks",
        "sheet",
        "group",
        "forget",
        "lock",
        "unlock",
        "schema",
    ),
    "doctor",
)
"""In the order in which people need them; each is a function in the file of its name."""
_ENDINGS = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
"""A program is told to end, or its terminal is closed; the second is unknown to Windows."""
_COLLECTED_AFTER = (50_000, 20, 20)
"""Much is read and little of it let go again; looking through it for what may go took a third of
the time of reading. Memory is freed as ever but for what goes round in circles."""


def main() -> None:
    """Run the command line; exit 0 when all is well, 1 on findings, 2 when it can't go on."""
    for number in _ENDINGS:
        signal.signal(number, _end)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace", line_buffering=True)
    gc.set_threshold(*_COLLECTED_AFTER)
    try:
        make_app_for(sys.argv[1:])(prog_name="tempoleaf")
    except BuilderError as error:
        _stop(error.message, error.cure)
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # what is left unsaid can't be said
        _stop(*_explain(error))
    except KeyboardInterrupt:
        sys.exit(128 + signal.SIGINT)


def make_app_for(words: Sequence[str]) -> typer.Typer:
    """Load the command that is asked for; where none is, their names and first lines will do."""
    if words and words[0] in WORDS:
        return make_app(words[:1])
    return make_app(WORDS, _load if set(words) & set(WORDS) else _describe_unloaded)


def make_app(
    words: Iterable[str], load: Callable[[str], Callable[..., None]] | None = None
) -> typer.Typer:
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
        app.command(word)((load or _load)(word))
    return app


def _describe_unloaded(word: str) -> Callable[..., None]:
    """Return what stands for a command in a list of them: a function with its words alone."""

    def command() -> None:
        raise BuilderError(f'"{word}" isn\'t loaded', "ask for it first")

    source = Path(__file__).with_name(f"{word}_command.py").read_text(encoding="utf-8")
    names = (word, f"{word}_")
    command.__doc__ = next(
        ast.get_docstring(node)
        for node in ast.parse(source).body
        if isinstance(node, ast.FunctionDef) and node.name in names
    )
    return command


def _load(word: str) -> Callable[..., None]:
    """Return the function of a command; a name that Python keeps for itself ends in a line."""
    module = import_module(f"builder.cli.{word}_command")
    command: Callable[..., None] = getattr(module, f"{word}_" if iskeyword(word) else word)
    return command


def _explain(error: OSError) -> tuple[str, str]:
    """Say what the system refused, and what to do."""
    if error.errno in (ENOSPC, EDQUOT):
        return "the disk is full", f"make room on it{_name_scratch()} and run this again"
    where = f'"{error.filename}"' if error.filename else "a file"
    return f"{where} can't be read or written ({error.strerror})", "see that you may, and try again"


def _name_scratch() -> str:
    """Name the folder for temporary files as another place to look at, if it has its own disk."""
    with suppress(OSError):  # there is none that can be written
        scratch = tempfile.gettempdir()
        if Path(scratch).stat().st_dev != Path.cwd().stat().st_dev:
            return f', or on that of "{scratch}" (TMPDIR names another folder),'
    return ""


def _stop(message: str, cure: str) -> NoReturn:
    lines = f"cannot go on: {message}; {cure}.".split("\n")
    print("\n".join(map(spell_out, lines)), file=sys.stderr)
    sys.exit(2)


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
