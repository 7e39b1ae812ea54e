"""Whole-or-nothing writes: a folder is finished beside its place, then moved there."""

import errno
import os
import shutil
import stat
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from builder.errors import BuilderError
from builder.work.exchange import exchange
from builder.work.left import OLD, make_beside, mend_folders

MARK = ".tempoleaf"
"""A file of this name says that a folder was made by this tool and may be replaced by it."""
Leave = Callable[[Path], None]
_MARK_TEXT = "tempoleaf made this folder and replaces it whole: keep nothing of your own in here.\n"


@contextmanager
def replace_folder(
    target: Path, *, mends: bool = True, leave: Leave | None = None
) -> Iterator[Path]:
    """Give an empty folder to write into; it takes the target's place when all went well.

    What stood there before goes only then, unless ``leave`` moves it away; after an error it
    stands as it was. A folder with files that this tool did not make is refused with a
    BuilderError. What a run that was killed left of the same folder is mended first; who replaces
    many does so once, by ``mend_folders``.
    """
    target = target.absolute()
    if mends:
        mend_folders(target.parent, target.name)
    _refuse_strangers(target)
    with _open_beside(target) as beside:
        fresh, old = beside / "fresh", beside / OLD
        fresh.mkdir()
        try:
            yield fresh
            mark_folder(fresh)
            _swap(fresh, target, old)
            if leave and old.is_dir():
                leave(old)
        finally:
            if target.exists() or not old.exists():
                shutil.rmtree(beside, ignore_errors=True)


@contextmanager
def work_beside(target: Path) -> Iterator[Path]:
    """Give an empty folder beside the place of a file; it goes at the end, with all in it.

    What is finished there can be moved to its place in one step. What a run that was killed left
    of the same file goes first.
    """
    target = target.absolute()
    mend_folders(target.parent, target.name)
    with _open_beside(target) as beside:
        try:
            (beside / "fresh").mkdir()
            yield beside / "fresh"
        finally:
            shutil.rmtree(beside, ignore_errors=True)


def write_whole(path: Path, text: str) -> None:
    """Write a file so that nobody ever sees half of it; what stood there goes only then."""
    with _write_beside(path, text) as fresh:
        if path.exists():
            shutil.copymode(path, fresh)
        fresh.replace(path)


def add_whole(path: Path, text: str) -> bool:
    """Write a file that nobody ever sees half of; False where one stands, which is left alone."""
    with _write_beside(path, text) as fresh:
        try:
            path.hardlink_to(fresh)
        except FileExistsError:
            return False
        except OSError:  # a disk without links
            if os.path.lexists(path):
                return False
            fresh.rename(path)
    return True


@contextmanager
def _write_beside(path: Path, text: str) -> Iterator[Path]:
    """Give a file with a text, written down for good, beside its place."""
    with work_beside(path) as folder:
        fresh = folder / path.name
        with fresh.open("w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        fresh.chmod(0o644)
        yield fresh


def write_whole_bytes(path: Path, content: bytes) -> None:
    """Write a file as a whole through a file of a fixed name beside it.

    Only one writer at a time may do so; it clears away what another left when it was killed.
    The new file outlasts a power cut where the system can promise that.
    """
    fresh = path.with_name(f".{path.name}.new")
    try:
        fresh.unlink(missing_ok=True)
        with fresh.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, fresh)
        fresh.replace(path)
        _keep_folder(path.parent)
    finally:
        fresh.unlink(missing_ok=True)


@contextmanager
def _open_beside(target: Path) -> Iterator[Path]:
    """Hold a new folder beside a place, whose own folder may not be there yet."""
    with ExitStack() as held:
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            beside = held.enter_context(make_beside(target))
        except OSError as error:
            raise _unwritable(target, error) from error
        yield beside


def _keep_folder(folder: Path) -> None:
    """Have the system write down a folder's list of names; Windows opens no folders."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def mark_folder(folder: Path) -> None:
    """Note in a folder that this tool made it."""
    (folder / MARK).write_text(_MARK_TEXT, encoding="utf-8")


def _refuse_strangers(target: Path) -> None:
    """Refuse to replace what this tool did not make."""
    try:
        is_folder = stat.S_ISDIR(target.lstat().st_mode)
    except OSError:  # nothing is there; who makes the folder tells why if it can't
        return
    if not is_folder:
        raise BuilderError(f'"{target}" is no folder', "give another place, or move that away")
    if _holds_others(target):
        raise BuilderError(
            f'"{target}" holds files that tempoleaf did not make, and would be replaced whole',
            "give an empty or a new folder",
        )


def _holds_others(target: Path) -> bool:
    """Tell whether a folder holds what others made; another run may move it away meanwhile."""
    before = None
    while (now := _identify(target)) != before:
        before = now
        with suppress(OSError):
            names = {path.name for path in target.iterdir()}
            if MARK in names or not names:
                return False
    return now is not None


def _identify(folder: Path) -> int | None:
    """Return the number that the system has for a folder; None where there is none."""
    try:
        return folder.stat().st_ino
    except OSError:
        return None


def _swap(fresh: Path, target: Path, old: Path) -> None:
    """Move the old folder away and the fresh one in; put the old one back if that fails."""
    try:
        while not _take_place(fresh, target, old):
            shutil.rmtree(old, ignore_errors=True)
    except BaseException as error:  # an interrupt between the two moves must not lose the old one
        if old.exists() and not target.exists():
            old.rename(target)
        if isinstance(error, OSError):
            raise _unwritable(target, error) from error
        raise


def _take_place(fresh: Path, target: Path, old: Path) -> bool:
    """Put a folder into its place; False where another run was quicker, whose folder is whole."""
    if exchange(fresh, target):
        try:
            fresh.rename(old)
        except OSError:
            exchange(fresh, target)
            raise
        return True
    with suppress(FileNotFoundError):  # nothing was there, or that run has just moved it away
        target.rename(old)
    try:
        fresh.rename(target)
    except OSError as error:
        if error.errno in (errno.ENOTEMPTY, errno.EEXIST):
            return False
        raise
    return True


def _unwritable(target: Path, error: OSError) -> BuilderError:
    return BuilderError(
        f'"{target}" can\'t be written ({error.strerror})', "give a folder you may write to"
    )
