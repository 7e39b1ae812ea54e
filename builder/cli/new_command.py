"""`tempoleaf new`: make a studio's own course from the starter."""

import os
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.new_questions import ask_wishes
from builder.starting.folder import refuse_unsuitable
from builder.starting.new_course import NewCourse, make_course, read_starter
from builder.starting.wishes import Wishes, find_rare_signs, name_after


def new(  # noqa: PLR0913  # each is an option of the command line
    folder: Annotated[
        Path, typer.Argument(help="A new or empty folder for the course.", metavar="DIR")
    ],
    *,
    name: Annotated[str, typer.Option(help="What your studio is called.")] = "",
    strands: Annotated[
        str, typer.Option(help="The strands to take, with commas between; all if left out.")
    ] = "",
    contact: Annotated[str, typer.Option(help="How people reach you; stands on each card.")] = "",
    accent: Annotated[str, typer.Option(help="Your colour, as #rrggbb or a plain word.")] = "",
    paper: Annotated[str, typer.Option(help="The size that cards are printed in.")] = "",
    address: Annotated[str, typer.Option(help="Where the site will stand on the web.")] = "",
    language: Annotated[str, typer.Option(help="The language of the texts, such as en-GB.")] = "",
) -> None:
    """Make a course of your own from the starter, ready to build.

    Asks for name, strands, colour and paper where it runs in a terminal and no option gives
    them. Writes nothing over. Exit code 0 when the course is made, 2 when it is not.
    """
    refuse_unsuitable(Path(os.path.realpath(folder)))
    starter = read_starter()
    named = tuple(strands.split(",")) if strands.strip() else ()
    wishes = Wishes(name.strip(), contact, accent, paper, address, language, named)
    if sys.stdin.isatty():
        wishes = ask_wishes(wishes, starter, _ask, typer.echo)
    given = wishes if wishes.name else _with_name(wishes, folder)
    made = make_course(folder, given, starter)
    print("\n".join(_tell(made, given.name, was_guessed=given is not wishes)))


def _ask(question: str, usual: str) -> str:
    return str(typer.prompt(question, default=usual or None))


def _with_name(wishes: Wishes, folder: Path) -> Wishes:
    name = name_after(Path(os.path.realpath(folder)))
    return replace(wishes, name=name)


def _tell(made: NewCourse, name: str, *, was_guessed: bool) -> Iterator[str]:
    yield f"A course of {made.lessons} lessons stands in {made.folder}"
    for brought in made.brought:
        yield (
            f'  "{brought.strand.title}" came along, because "{brought.lesson.title}" '
            f'needs "{brought.leans_on.title}"'
        )
    if was_guessed:
        yield f'  the studio is called "{name}", after the folder; change it in content/course.yml'
    rare = find_rare_signs(name)
    if rare:
        yield f"  look at a card before you print: its font may lack {rare}"
    for path in made.changed_pages:
        yield f"  {path} lost what it said of lessons that you left out; read it once"
    if made.findings:
        yield f"  {len(made.findings)} findings need your eye; see them with: tempoleaf check"
    if not made.can_publish:
        yield "  before you publish, write in requirements.txt where the tool comes from"
    yield "Next, in that folder: tempoleaf serve to look at it, README.md for everything else."
