"""What runs that were killed left: folders half written, and folders moved away for a moment.

Whoever works in a folder of this kind holds a lock on it, which ends with the process. So what
nobody holds is left, and whose it was is told by its name.
"""

import os
import re
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from weakref import finalize

OLD = "old"
"""In a folder beside: what stood in the place before."""
SPARE = "spare"
"""In a folder beside: what an older run left for this one to take files from."""
_NAMES = frozenset({"fresh", OLD, SPARE})
_BESIDE = re.compile(r"\.(.+)-[a-z0-9_]{8}")
_SCRATCH = re.compile(r"tempoleaf-run-[a-z0-9_]{8}")
"""As ``tempfile`` names a folder with a prefix of ours."""
_DAY_SECONDS = 24 * 60 * 60


def mend_folders(parent: Path, only: str = "") -> None:
    """Clear away what is left beside folders of a parent; what was moved away comes back.

    ``only`` is the name of the one folder or file to look after; else all of them are. What
    another run has in work stays.
    """
    for beside in sorted(_list_folders(parent, _BESIDE)):
        if only in ("", _name_target(beside)):
            with suppress(OSError), _seize(beside) as is_left:
                if is_left and {path.name for path in beside.iterdir()} <= _NAMES:
                    _mend(beside)


@contextmanager
def make_beside(target: Path) -> Iterator[Path]:
    """Make a folder beside a place, and hold it, so that no other run takes it for left.

    It stays: whoever asked clears it away when nothing in it is needed any more.
    """
    while True:
        beside = Path(tempfile.mkdtemp(dir=target.parent, prefix=f".{target.name}-"))
        with _lock(beside) as is_free:
            if _is_ours(beside, is_free):
                yield beside
                return


def make_scratch() -> TemporaryDirectory[str]:
    """Make a folder for what only this run needs; runs that were killed can't clear theirs away.

    So what they left in the system's folder for such things goes first.
    """
    parent = Path(tempfile.gettempdir())
    for left in sorted(_list_folders(parent, _SCRATCH)):
        with suppress(OSError), _seize(left) as is_left:
            if is_left and _is_own(left):
                shutil.rmtree(left, ignore_errors=True)
    while True:
        scratch = TemporaryDirectory(
            dir=parent, prefix="tempoleaf-run-", ignore_cleanup_errors=True
        )
        held = ExitStack()
        if _is_ours(Path(scratch.name), held.enter_context(_lock(Path(scratch.name)))):
            finalize(scratch, held.close)
            return scratch
        held.close()


def _list_folders(parent: Path, name: re.Pattern[str]) -> Iterator[Path]:
    with suppress(OSError):  # there is no such folder yet
        for entry in os.scandir(parent):
            if name.fullmatch(entry.name) and entry.is_dir(follow_symlinks=False):
                yield Path(entry.path)


def _name_target(beside: Path) -> str:
    return beside.name[1:].rpartition("-")[0]


def _mend(beside: Path) -> None:
    target = beside.with_name(_name_target(beside))
    if (beside / OLD).is_dir() and not target.exists():
        (beside / OLD).rename(target)
    shutil.rmtree(beside, ignore_errors=True)


@contextmanager
def _seize(folder: Path) -> Iterator[bool]:
    """Tell whether a folder is left; it is held meanwhile."""
    is_old = time.time() - folder.stat().st_mtime > _DAY_SECONDS
    with _lock(folder) as is_free:
        yield is_old if is_free is None else is_free


def _is_own(folder: Path) -> bool:
    """Tell whether a folder is of this user; others use the system's folder too."""
    return sys.platform == "win32" or folder.stat().st_uid == os.getuid()


def _is_ours(made: Path, is_free: bool | None) -> bool:
    """Tell whether a new folder is held; between making and holding it another run may clear it."""
    return is_free is not False and made.exists()


@contextmanager
def _lock(folder: Path) -> Iterator[bool | None]:
    """Lock a folder; tell whether it was free, or None where the system can't say."""
    if sys.platform == "win32":
        yield None
        return
    import fcntl  # noqa: PLC0415  # not on Windows

    try:
        handle = os.open(folder, os.O_RDONLY)
    except FileNotFoundError:  # another run has just cleared it away
        yield False
        return
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
