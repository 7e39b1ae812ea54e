"""What was asked for on the command line of the way in."""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.machine.environment import Environment, Purpose
from builder.machine.steps import Step

DRY_RUN = "--dry-run"
SET_UP_ONLY = "--set-up-only"
DEMO, TEST = "demo", "test"
_DEMO_DAY = "2026-11-24"
"""The day on which the invented records end."""
_DEMO_CLIENTS = tuple(f"C{number}" for number in range(1, 9))
HELP = ("-h", "--help")

USAGE = f"""\
python3 builder/start.py [{DRY_RUN}] [{SET_UP_ONLY}] WORD [ARGUMENT ...]

  {DEMO}     set up what is missing and build the demo course into site/
  {TEST}     set up what is missing for tests too, and run all tests
  new DIR  make a course of your own in DIR
  serve    show the course in a browser, and follow each change
  check    check the course
  and any other word that tempoleaf knows; `--help` after a word explains it.

  {DRY_RUN}      say what would be done, and do nothing
  {SET_UP_ONLY}  set up, and stop there"""


@dataclass(frozen=True, slots=True)
class Request:
    """What was asked for on the command line."""

    word: str = ""
    rest: tuple[str, ...] = ()
    dry_run: bool = False
    set_up_only: bool = False

    @property
    def purpose(self) -> Purpose:
        """What the environment must be able to do."""
        return Purpose.TEST if self.word == TEST else Purpose.RUN


def read_request(arguments: Sequence[str]) -> Request:
    """Read the command line: our options stand before the word, or after `demo` and `test`."""
    words = list(arguments)
    own: set[str] = set()
    while words and words[0] in {DRY_RUN, SET_UP_ONLY}:
        own.add(words.pop(0))
    word, rest = (words[0], words[1:]) if words else ("", [])
    if word in {DEMO, TEST}:
        own |= {DRY_RUN, SET_UP_ONLY} & set(rest)
        rest = [argument for argument in rest if argument not in own]
    return Request(word, tuple(rest), DRY_RUN in own, SET_UP_ONLY in own)


def _list_demo_steps(environment: Environment, request: Request) -> tuple[Step, ...]:
    """List what shows all of the demo: the public site, then what is the coach's alone."""
    command, built = str(environment.command), environment.root / "site"
    build = Step(f"Build the demo course into {built}.", (command, "build", *request.rest))
    program = environment.root / "demo_program"
    classes = tuple(
        Step(f"Plan the class {path.stem} and print it.", (command, "class", str(path), "--print"))
        for path in sorted(program.glob("classes/*.yml"))
    )
    sheets = tuple(
        Step(f"Print the sheet of {person}.", (command, "sheet", person, "--on", _DEMO_DAY))
        for person in _DEMO_CLIENTS
        if program.is_dir()
    )
    group = Step("Show the whole group.", (command, "group", "--on", _DEMO_DAY))
    return (build, *classes, *sheets, *((group,) if program.is_dir() else ()))


def errands(environment: Environment, request: Request) -> tuple[Step, ...]:
    """List what to run once everything is set up."""
    command, python = str(environment.command), str(environment.python)
    if request.set_up_only:
        return ()
    if request.word == DEMO:
        return _list_demo_steps(environment, request)
    if request.word == TEST:
        return (
            Step("Look for faults of style.", (python, "-m", "ruff", "check", ".")),
            Step("Check the layout of the code.", (python, "-m", "ruff", "format", "--check", ".")),
            Step("Check the types.", (python, "-m", "mypy")),
            Step(
                "Run the tests.",
                (python, "-m", "pytest", "-n", "auto", "--dist", "worksteal", *request.rest),
            ),
        )
    words = " ".join((request.word, *request.rest))
    return (Step(f"Run tempoleaf {words}.", (command, request.word, *request.rest)),)
