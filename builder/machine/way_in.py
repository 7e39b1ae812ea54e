"""From a fresh clone to a running tempoleaf: say what will happen, do it, hand over."""

import os
import subprocess
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from builder.errors import BuilderError
from builder.machine.environment import Environment, Purpose
from builder.machine.state import look_at_machine
from builder.machine.steps import SetUp, Step, plan_set_up
from builder.machine.words import DEMO, HELP, TEST, USAGE, Request, errands, read_request

CANNOT_RUN, STOPPED = 2, 130
LAST_LINES = 20
"""How much of a failed command's output is shown."""

Say = Callable[[str], None]


def run(root: Path, arguments: Sequence[str], say: Say) -> int:
    """Set up and run what was asked for; give the exit code."""
    request = read_request(arguments)
    if request.word in HELP or not (request.word or request.set_up_only):
        say(USAGE)
        return 0 if request.word else CANNOT_RUN
    environment = Environment(root)
    machine = look_at_machine(environment, request.purpose)
    set_up = plan_set_up(machine, environment, request.purpose)
    _tell(set_up, request, errands(environment, request), say)
    if request.dry_run:
        return 0
    try:
        _set_up(set_up, environment, request.purpose, say)
        if set_up.by_hand:
            say(f"Run this line, then start this again:\n    {set_up.by_hand}")
            return CANNOT_RUN
        return _hand_over(environment, request, say)
    except BuilderError as stop:
        say(f"Stopped: {stop.message}\n{stop.cure}.")
        return CANNOT_RUN
    except KeyboardInterrupt:
        say("Stopped.")
        return STOPPED


def _tell(set_up: SetUp, request: Request, after: Sequence[Step], say: Say) -> None:
    """Say what will happen, before any of it does."""
    changes = bool(set_up.steps or set_up.by_hand)
    if not (changes or request.dry_run or request.set_up_only or request.word in {DEMO, TEST}):
        return
    steps = (*set_up.steps, *(() if set_up.by_hand else after))
    say("This will happen:" if changes else "Everything that this needs is set up.")
    for number, step in enumerate(steps, 1):
        say(f"  {number}. {step.says}")
    if set_up.by_hand:
        say(f"  {len(steps) + 1}. Stop, as this line is for you to run:")
        say(f"     {set_up.by_hand}")
    if set_up.project and not set_up.system:
        say("Nothing outside this folder changes but the installers' own caches of downloads.")
    say("")


def _set_up(set_up: SetUp, environment: Environment, purpose: Purpose, say: Say) -> None:
    """Take the steps; the stamp goes first and comes back last."""
    for step in set_up.system:
        _take(step, say)
    if set_up.project:
        environment.break_stamp()
        for step in set_up.project:
            _take(step, say)
        environment.write_stamp(purpose)


def _take(step: Step, say: Say) -> None:
    """Take one step without its noise; raise BuilderError with its last words when it fails."""
    say(f"=> {step.says}")
    done = subprocess.run(
        step.command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False
    )
    if done.returncode and not step.may_fail:
        spoken = done.stdout.decode(errors="replace").splitlines()
        last_words = "\n".join(spoken[-LAST_LINES:])
        command = " ".join(step.command)
        raise BuilderError(
            f"this failed with exit code {done.returncode}: {command}\n{last_words}",
            "Once that is mended, start this again",
        )


def _hand_over(environment: Environment, request: Request, say: Say) -> int:
    """Run what was asked for, all of it, and give the first exit code that isn't 0."""
    ours = request.word in {DEMO, TEST}
    variables = _variables(environment)
    failed: list[tuple[Step, int]] = []
    for step in errands(environment, request):
        if ours:
            say(f"=> {step.says}")
        place = environment.root if ours else None
        done = subprocess.run(step.command, cwd=place, env=variables, check=False)
        if done.returncode:
            failed.append((step, done.returncode))
    if ours and failed:
        say("Not right: " + " ".join(step.says for step, _ in failed))
    elif request.word == DEMO:
        say(f"\nThe demo course is built. Open {environment.root / 'site' / 'index.html'}")
        say("For the coach alone, never to be published, look into coach/: a card and a screen for")
        say("each class, a sheet and a calendar for each person, and group.html for all of them.")
        say("Run `python3 builder/start.py serve` to see it with search and follow each change.")
    return failed[0][1] if failed else 0


def _variables(environment: Environment) -> Mapping[str, str]:
    """Put the environment's programs first, as activating it would."""
    path = os.pathsep.join((str(environment.programs), os.environ.get("PATH", os.defpath)))
    return {**os.environ, "PATH": path, "VIRTUAL_ENV": str(environment.folder)}
