"""The installed packages against the ones that tempoleaf was tested with."""

import importlib.metadata
from collections.abc import Iterable, Iterator
from pathlib import Path

from packaging.requirements import InvalidRequirement, Requirement

DISTRIBUTION = "tempoleaf"


def read_lock(lock: Path) -> tuple[Requirement, ...]:
    """Read the packages of a lock file that this Python and system need."""
    lines = lock.read_text(encoding="utf-8").replace("\\\n", " ").splitlines()
    return _for_here(line.partition(" --hash")[0] for line in lines)


def read_own_requirements() -> tuple[Requirement, ...]:
    """Read what the installed distribution itself asks for; nothing when it isn't installed."""
    try:
        return _for_here(importlib.metadata.requires(DISTRIBUTION) or ())
    except importlib.metadata.PackageNotFoundError:
        return ()


def find_unmet(wanted: Iterable[Requirement]) -> Iterator[tuple[Requirement, str | None]]:
    """Give each requirement that isn't met, with the version that is there instead."""
    for requirement in wanted:
        try:
            version = importlib.metadata.version(requirement.name)
        except importlib.metadata.PackageNotFoundError:
            yield requirement, None
            continue
        if not requirement.specifier.contains(version, prereleases=True):
            yield requirement, version


def _for_here(lines: Iterable[str]) -> tuple[Requirement, ...]:
    return tuple(_applying(line.strip() for line in lines))


def _applying(lines: Iterable[str]) -> Iterator[Requirement]:
    for line in lines:
        if not line or line.startswith("#"):
            continue
        try:
            requirement = Requirement(line)
        except InvalidRequirement as fault:
            raise ValueError(f"not a requirement: {line!r}") from fault
        if requirement.marker is None or requirement.marker.evaluate({"extra": ""}):
            yield requirement
