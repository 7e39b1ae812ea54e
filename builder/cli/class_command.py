"""`tempoleaf class`: plan a class, check a plan that was edited, or plan anew at the door."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.class_files import ClassDesk, open_desk
from builder.cli.folder_options import ProgramOption, ProjectOption
from builder.cli.progress_bar import QuietOption, show_progress
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass, Planner
from builder.records.plan import ClassPlan
from builder.report.class_words import say_proof, write_class, write_impossible


def class_(  # noqa: PLR0913  # each is an option of the command
    file: Annotated[Path, typer.Argument(help="The class file: classes/2026-11-24-mixed.yml.")],
    *,
    without: Annotated[
        list[str] | None, typer.Option(help="Leave somebody out who didn't come: an id.")
    ] = None,
    add: Annotated[
        list[str] | None, typer.Option(help="Take somebody in who came as well: an id.")
    ] = None,
    anew: Annotated[
        bool, typer.Option("--anew", help="Plan from the start, even if there is a plan.")
    ] = False,
    print_: Annotated[
        bool, typer.Option("--print", help="Write card and screen, into coach/classes/.")
    ] = False,
    program: ProgramOption = None,
    project: ProjectOption = Path(),
    quiet: QuietOption = False,
) -> None:
    """Plan a class: blocks that all share, and each person's own version, with the reasons.

    The plan is written to plans/ beside the class files. Change it there as you like and run the
    same command again: it is checked. With --without and --add the blocks stay and only who does
    what changes, if that can be. With --print the class card and the class screen are written for
    the coach alone, unless the plan breaks a rule or rows are left out. It clears nobody: local
    rules and licensed clinicians come first.

    Exit code 0, 1 when a plan breaks a rule, there is none, or rows can't be read and are left
    out, 2 when it couldn't run.
    """
    desk = open_desk(project, program, file, is_anew=anew)
    people = desk.change_people(without or (), add or ())
    planner = Planner(desk.opened.course, desk.opened.program, replace(desk.order, people=people))
    if desk.plan is None or anew:
        planned = _print_new(desk, planner, (), quiet=quiet)
    elif without or add:
        planned = _print_changed(desk, planner, quiet=quiet)
    else:
        planned = _print_checked(desk, planner, desk.plan, quiet=quiet)
    if desk.opened.records.faults:
        raise typer.Exit(1)
    if print_:
        print(desk.hand_out(planned))


@contextmanager
def _searching(*, quiet: bool) -> Iterator[None]:
    with show_progress(quiet=quiet) as progress:
        progress.tell("searching the best class")
        yield


def _print_checked(
    desk: ClassDesk, planner: Planner, plan: ClassPlan, *, quiet: bool
) -> PlannedClass:
    with _searching(quiet=quiet):
        checked = planner.check(plan)
    is_sound = not checked.score.breaches
    words = "The plan was read from its file" + (", and keeps every rule." if is_sound else ".")
    words += " To plan from the start, with all that was recorded since: --anew."
    print(write_class(desk.view(checked), [words, say_proof(checked), *desk.say_left_out()]))
    if not is_sound:
        raise typer.Exit(1)
    return checked


def _print_new(
    desk: ClassDesk, planner: Planner, words: tuple[str, ...], *, quiet: bool
) -> PlannedClass:
    with _searching(quiet=quiet):
        planned = planner.plan()
    if isinstance(planned, ImpossibleClass):
        print(write_impossible(desk.opened.course, planned))
        raise typer.Exit(1)
    verdict = [*words, say_proof(planned), desk.keep(planned), *desk.say_left_out()]
    print(write_class(desk.view(planned), verdict))
    return planned


def _print_changed(desk: ClassDesk, planner: Planner, *, quiet: bool) -> PlannedClass:
    with _searching(quiet=quiet):
        planned = planner.replan(desk.plan) if desk.plan else None
    if planned is None:
        words = ("The blocks don't hold for these people: all is planned anew.",)
        return _print_new(desk, planner, words, quiet=quiet)
    said = "The blocks stay; only who does what has changed."
    print(write_class(desk.view(planned), [said, desk.keep(planned), *desk.say_left_out()]))
    return planned
