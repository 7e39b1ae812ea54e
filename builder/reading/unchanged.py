"""Whether files stayed as they were while they were read, by what the system tells of them."""

import os
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from builder.errors import BuilderError

States = Mapping[str, tuple[int, ...]]
"""Path to the number, size and times of a file."""


def list_states(*places: Path) -> States:
    """Return the state of every file in some folders, and of single files; hidden ones don't count.

    A file that is written has another time afterwards, even where its bytes are the old ones. The
    times are compared with each other alone, so a clock that is set back changes nothing.
    """
    states: dict[str, tuple[int, ...]] = {}
    for path in (path for place in places for path in _list_files(place)):
        with suppress(OSError):  # a file that goes meanwhile is missing in one of two states
            told = os.stat(path)  # noqa: PTH116  # there may be many thousands
            states[path] = (told.st_ino, told.st_size, told.st_mtime_ns, told.st_ctime_ns)
    return states


def find_changed(before: States, after: States) -> str | None:
    """Return the first file, by its path, that isn't in the same state any more."""
    every = sorted({*before, *after})
    return next((path for path in every if before.get(path) != after.get(path)), None)


def refuse_changed(before: States, *places: Path) -> None:
    """Raise BuilderError where a file of some places has changed since their state was listed."""
    changed = find_changed(before, list_states(*places))
    if changed is not None:
        raise BuilderError(
            f'"{changed}" was changed during the run, so that some of what it makes would be of '
            "the old state and some of the new",
            "run this again",
        )


def _list_files(place: Path) -> Iterator[str]:
    if place.is_file():
        yield str(place)
    for folder, folders, names in os.walk(place):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from (f"{folder}/{name}" for name in names if not name.startswith("."))
