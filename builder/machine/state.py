"""What this machine is, what it lacks, and whether we may install that."""

import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass

from builder.machine.browser import find_browser
from builder.machine.environment import Environment, Purpose
from builder.machine.libraries import has_pango, has_subsetter
from builder.machine.systems import Part, System, find_system


@dataclass(frozen=True, slots=True)
class Machine:
    """The machine as a set-up finds it."""

    system: System
    missing: tuple[Part, ...] = ()
    as_administrator: tuple[str, ...] | None = None
    """The words before a command that installs system packages; nothing when not allowed."""


def look_at_machine(environment: Environment, purpose: Purpose) -> Machine:
    """Find out what this machine lacks for a purpose, changing nothing."""
    system = find_system()
    missing = tuple(_missing(environment, purpose))
    allowed = _administrator() if missing and system is System.DEBIAN else None
    return Machine(system, missing, allowed)


def _missing(environment: Environment, purpose: Purpose) -> Iterator[Part]:
    if not environment.is_mine() and importlib.util.find_spec("ensurepip") is None:
        yield Part.ENVIRONMENTS
    if not has_pango():
        yield Part.PANGO
    if not has_subsetter():
        yield Part.SUBSETTER
    if purpose is Purpose.TEST and find_browser() is None:
        yield Part.BROWSER


def _administrator() -> tuple[str, ...] | None:
    """Tell how system packages may be installed without asking anybody for a password."""
    if sys.platform == "win32":
        return None
    if os.geteuid() == 0:
        return ()
    sudo = shutil.which("sudo")
    if sudo is None:
        return None
    asked = subprocess.run([sudo, "-n", "true"], capture_output=True, check=False)
    return (sudo, "-n") if asked.returncode == 0 else None
