"""What the machine is: figures of one mean nothing on another."""

import os
import platform
import subprocess
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from tests.bench.workshop import ROOT

_PACKAGES = ("mkdocs", "mkdocs-material", "markdown", "weasyprint", "typst")


def describe_machine() -> dict[str, str]:
    """Return the facts that a reader needs to make sense of the seconds."""
    facts = {
        "cores": str(_count_cores()),
        "processor": _read_field("/proc/cpuinfo", "model name") or platform.machine(),
        "memory": _read_field("/proc/meminfo", "MemTotal"),
        "system": platform.system(),
        "Python": platform.python_version(),
        **{name: _find_version(name) for name in _PACKAGES},
        "state": _find_state(),
        "load": _find_load(),
    }
    return {name: fact for name, fact in facts.items() if fact}


def _count_cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _find_load() -> str:
    """Return how many processes wanted to run in the last minute: with more than 0, others did."""
    return f"{os.getloadavg()[0]:.1f} at the start" if hasattr(os, "getloadavg") else ""


def _read_field(path: str, name: str) -> str:
    if not Path(path).is_file():
        return ""
    lines = Path(path).read_text(encoding="utf-8").splitlines()
    found = (line.split(":", 1)[1].strip() for line in lines if line.startswith(name))
    return next(found, "")


def _find_version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return ""


def _find_state() -> str:
    """Return which state of the project was measured, and whether it had changes."""
    words = ("git", "describe", "--always", "--dirty")
    found = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    return found.stdout.strip()
