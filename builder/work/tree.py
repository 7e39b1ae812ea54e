"""The entries of a folder and of those in it, none of them a surprise: no link is followed."""

import os
import stat
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum
from pathlib import Path


class EntryKind(Enum):
    """What an entry of a folder is."""

    FILE = "file"
    FOLDER = "folder"
    LINK = "link"
    OTHER = "other"
    """A pipe, a device, a socket: opening one may never come to an end."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry, with how many folders it lies in below the first."""

    path: Path
    kind: EntryKind
    levels: int


def walk_tree(
    folder: Path, most_levels: int, on_error: Callable[[OSError], object] | None = None
) -> Iterator[Entry]:
    """Yield every entry in a fixed order, folder by folder; what lies deeper isn't looked into.

    A folder that can't be opened is told to ``on_error``, or raised where there is none.
    """
    waiting = [Entry(folder, EntryKind.FOLDER, 0)]
    while waiting:
        opened = waiting.pop()
        entries = _list_entries(opened, on_error)
        yield from entries
        folders = [each for each in entries if each.kind is EntryKind.FOLDER]
        waiting += [each for each in reversed(folders) if each.levels <= most_levels]


def lies_within(path: Path, folder: Path) -> bool:
    """Tell whether a file is really in a folder, links followed; one that goes round is nowhere."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # the second for a link in a circle, up to Python 3.12
        return False


def _list_entries(opened: Entry, on_error: Callable[[OSError], object] | None) -> list[Entry]:
    try:
        with os.scandir(opened.path) as found:
            entries = sorted(found, key=lambda entry: entry.name)
            kinds = [(entry.name, _tell_kind(entry)) for entry in entries]
    except OSError as error:
        if on_error is None:
            raise
        on_error(error)
        return []
    return [Entry(opened.path / name, kind, opened.levels + 1) for name, kind in kinds]


def _tell_kind(entry: "os.DirEntry[str]") -> EntryKind:
    if entry.is_symlink():
        return EntryKind.LINK
    if entry.is_dir(follow_symlinks=False):
        return EntryKind.FOLDER
    is_file = stat.S_ISREG(entry.stat(follow_symlinks=False).st_mode)
    return EntryKind.FILE if is_file else EntryKind.OTHER
