"""Whole-or-nothing writes: a folder is finished beside its place, then moved there."""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.errors import BuilderError


@contextmanager
def replace_folder(target: Path) -> Iterator[Path]:
    """Give an empty folder to write into; it takes the target's place when all went well.

    What stood there before goes only then. After an error it stands as it was.
    """
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(dir=target.parent, prefix=f".{target.name}-"))
    except OSError as error:
        raise BuilderError(
            f'"{target}" can\'t be written ({error.strerror})', "give a folder you may write to"
        ) from error
    fresh = beside / "fresh"
    fresh.mkdir()
    try:
        yield fresh
        _swap(fresh, target, beside / "old")
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _swap(fresh: Path, target: Path, old: Path) -> None:
    """Move the old folder away and the fresh one in; put the old one back if that fails."""
    if target.exists():
        target.rename(old)
    try:
        fresh.rename(target)
    except OSError:
        if old.exists():
            old.rename(target)
        raise
