"""The folder that stood in a place before, laid by: what stays the same isn't written again.

A spare is part of a project's cache: anybody may delete it, change it or add to it. So whoever
takes files from it looks at their bytes.
"""

import os
import shutil
import stat
from collections.abc import Callable, Container
from contextlib import suppress
from pathlib import Path

from builder.work.left import SPARE

Keeps = Callable[[str], bool]
"""Tells of a file's path in a folder whether it stays there."""


def lay_by(old: Path, spare: Path, ending: str) -> None:
    """Move a folder to where its spare lies, with no other files than those of an ending.

    It stays, to be removed, where a spare lies already or on another disk.
    """
    with suppress(OSError):
        if not spare.exists() and spare.parent.stat().st_dev == old.stat().st_dev:
            _clear(str(old), lambda name: name.endswith(ending), old.stat().st_mode)
            old.rename(spare)


def take_over(spare: Path, fresh: Path, wanted: Container[str]) -> None:
    """Have the empty folder of ``replace_folder`` take over the wanted files of a spare.

    They are as new ones would be, but for their bytes, and nothing else comes with them. Where
    that can't be, the folder stays empty. Of two runs at once only one gets the spare.
    """
    taken = fresh.with_name(SPARE)
    with suppress(OSError):
        spare.rename(taken)
        mode = fresh.stat().st_mode
        if taken.stat().st_mode == mode:
            _clear(str(taken), wanted.__contains__, mode)
            taken.rename(fresh)


def _clear(folder: str, keeps: Keeps, mode: int, within: str = "") -> bool:
    """Remove what doesn't stay, or isn't as a new file or folder is; tell whether any stayed.

    ``mode`` is that of a new folder; a new file has the same without the right to enter.
    """
    stays = False
    with os.scandir(folder) as entries:
        every = list(entries)
    for entry in every:
        name, state = within + entry.name, os.lstat(entry.path)
        if not stat.S_ISDIR(state.st_mode):
            is_own = state.st_mode == stat.S_IFREG | mode & 0o666 and state.st_nlink == 1
            if is_own and keeps(name):
                stays = True
            else:
                Path(entry.path).unlink()
        elif state.st_mode != mode:
            shutil.rmtree(entry.path)
        elif _clear(entry.path, keeps, mode, f"{name}/"):
            stays = True
        else:
            Path(entry.path).rmdir()
    return stays
