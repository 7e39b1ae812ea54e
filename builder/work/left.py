"""What runs that were killed left: folders half written, and folders moved away for a moment.

Whoever writes a folder beside its place holds a lock on it, which ends with the process. So what
nobody holds and yet has something in it is left, and whose it was is told by its name.
"""

import os
import re
import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

OLD = "old"
"""In a folder beside: what stood in the place before."""
SPARE = "spare"
"""In a folder beside: what an older run left for this one to take files from."""
_NAMES = frozenset({"fresh", OLD, SPARE})
_BESIDE = re.compile(r"\.(.+)-[a-z0-9_]{8}")
"""As ``tempfile`` names a folder with a prefix of ours."""
_DAY_SECONDS = 24 * 60 * 60


def mend_folders(parent: Path, only: str = "") -> None:
    """Clear away what is left beside folders of a parent; what was moved away comes back.

    ``only`` is the name of the one folder to look after; else all of them are. What another run
    has in work stays.
    """
    for beside in sorted(_list_beside(parent, only)):
        with suppress(OSError), _seize(beside) as is_left:
            if is_left:
                _mend(beside)


@contextmanager
def hold(beside: Path) -> Iterator[None]:
    """Hold a folder that is still empty, so that no other run takes it for left."""
    with _lock(beside):
        yield


def _list_beside(parent: Path, only: str) -> Iterator[Path]:
    with suppress(OSError):  # there is no such folder yet
        for entry in os.scandir(parent):
            name = _BESIDE.fullmatch(entry.name)
            if name and only in ("", name[1]) and entry.is_dir(follow_symlinks=False):
                yield Path(entry.path)


def _mend(beside: Path) -> None:
    target = beside.with_name(beside.name[1:].rpartition("-")[0])
    if (beside / OLD).is_dir() and not target.exists():
        (beside / OLD).rename(target)
    shutil.rmtree(beside, ignore_errors=True)


@contextmanager
def _seize(beside: Path) -> Iterator[bool]:
    """Tell whether a folder is left; it is held meanwhile. An empty one may be new."""
    names = {path.name for path in beside.iterdir()}
    is_old = time.time() - beside.stat().st_mtime > _DAY_SECONDS
    with _lock(beside) as is_free:
        is_left = is_old if is_free is None else is_free and (is_old or bool(names))
        yield is_left and names <= _NAMES


@contextmanager
def _lock(folder: Path) -> Iterator[bool | None]:
    """Lock a folder; tell whether it was free, or None where the system can't say."""
    if sys.platform == "win32":
        yield None
        return
    import fcntl  # noqa: PLC0415  # not on Windows

    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            is_free: bool | None = True
        except BlockingIOError:
            is_free = False
        except OSError:  # a shared disk without locks
            is_free = None
        yield is_free
    finally:
        os.close(handle)
