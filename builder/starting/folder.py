"""Folders that come into being whole or not at all."""

import re
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from builder.errors import BuilderError

_UNNOTICED = frozenset({".git", ".DS_Store", "Thumbs.db", "desktop.ini"})
"""What a folder may hold and still count as empty: nobody put it there to read it."""
_DEVICE = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)
_FORBIDDEN = re.compile(r'[<>:"|?*\\\x00-\x1f]')


def refuse_unsuitable(target: Path) -> None:
    """Raise BuilderError with the cure where no folder can be made or filled at a place."""
    try:
        if not target.exists():
            _refuse_new(target)
        elif not target.is_dir():
            raise BuilderError(f'"{target}" is a file', "choose a new folder")
        else:
            _refuse_filled(target)
    except OSError as error:
        raise _unwritable(target, error) from error


@contextmanager
def fill_whole(target: Path) -> Iterator[Path]:
    """Give a folder to fill; at the end it stands at the target, or after a stop nowhere."""
    refuse_unsuitable(target)
    is_new = not target.exists()
    try:
        workshop = Path(
            tempfile.mkdtemp(prefix=".new-course-", dir=target.parent if is_new else target)
        )
    except OSError as error:
        raise _unwritable(target, error) from error
    try:
        made = workshop / "made"
        made.mkdir()
        yield made
        if is_new:
            made.rename(target)
        else:
            _move_into(target, made)
    except OSError as error:
        raise _unwritable(target, error) from error
    finally:
        shutil.rmtree(workshop, ignore_errors=True)


def write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files by their paths from a folder."""
    for path, content in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)


def _move_into(target: Path, made: Path) -> None:
    """Move everything into an empty folder; take it out again where a move fails."""
    moved: list[Path] = []
    done = False
    try:
        for entry in sorted(made.iterdir()):
            place = target / entry.name
            if place.exists():
                raise BuilderError(f'"{place}" has come into being meanwhile', "start again")
            moved.append(place)
            entry.rename(place)
        done = True
    finally:
        for place in moved if not done else ():
            if place.is_dir():
                shutil.rmtree(place, ignore_errors=True)
            else:
                place.unlink(missing_ok=True)


def _refuse_new(target: Path) -> None:
    name = target.name
    if _DEVICE.fullmatch(name) or _FORBIDDEN.search(name) or name != name.rstrip(". "):
        raise BuilderError(
            f'"{name}" can\'t be the name of a folder on every computer',
            "use letters, digits, spaces and hyphens",
        )
    if not target.parent.is_dir():
        raise BuilderError(f'there is no folder "{target.parent}"', "make it first")


def _refuse_filled(target: Path) -> None:
    held = sorted(entry.name for entry in target.iterdir() if entry.name not in _UNNOTICED)
    if held:
        more = f" and {len(held) - 1} more" if len(held) > 1 else ""
        raise BuilderError(
            f'"{target}" is not empty: it holds "{held[0]}"{more}',
            "choose a new folder; nothing is ever written over",
        )


def _unwritable(target: Path, error: OSError) -> BuilderError:
    return BuilderError(
        f'"{target}" can\'t be made ({error.strerror})', "choose a folder that you may write to"
    )
