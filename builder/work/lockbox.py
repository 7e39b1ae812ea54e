"""A locked box: folders packed into one file that only a passphrase opens.

The file is in the age format (age-encryption.org/v1, scrypt and ChaCha20-Poly1305), so that other
programs of that format open it too. This module is the only one that knows the library. The
library takes and gives a box as a whole, so that a box has to fit into memory a few times.
"""

import io
import shutil
import tarfile
import unicodedata
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path, PurePosixPath
from types import ModuleType

from builder.errors import BuilderError
from builder.work.tree import lies_within
from builder.work.whole import MARK, replace_folder, write_whole_bytes

SHORTEST_PASSPHRASE = 12
"""Letters; fewer are soon guessed by a machine (ours)."""
MOST_BYTES = 500_000_000
"""Of all files together; locking takes about four times as much memory (ours)."""


def lock_folders(folders: Sequence[Path], target: Path, passphrase: str) -> int:
    """Write folders into a locked file, read back before it takes its place; count the files.

    BuilderError for a short passphrase, where nothing is there, where something would be left
    out, and without the library.
    """
    engine = _open_engine()
    if len(_fold(passphrase)) < SHORTEST_PASSPHRASE:
        raise BuilderError(
            f"the passphrase has fewer than {SHORTEST_PASSPHRASE} letters",
            "take four or five words that nobody would guess",
        )
    refuse_inside(target, folders)
    files = _list_files(folders)
    if not files:
        raise BuilderError("there is nothing to lock", "name a folder that holds files")
    packed = _pack(files)
    locked = engine.passphrase.encrypt(packed, _fold(passphrase))
    if engine.passphrase.decrypt(locked, _fold(passphrase)) != packed:
        raise BuilderError("what was locked doesn't open again", "run this again")
    target.parent.mkdir(parents=True, exist_ok=True)
    write_whole_bytes(target, locked)
    target.chmod(0o600)
    return len(files)


def unlock_folders(source: Path, target: Path, passphrase: str) -> int:
    """Open a locked file into a folder that is empty or new; return how many files it held.

    Only this account may look into the folder. After a BuilderError nothing of it is there.
    """
    engine = _open_engine()
    if target.is_symlink() or (target.exists() and not target.is_dir()) or _has_files(target):
        raise BuilderError(f'"{target}" is there already', "give a new folder")
    try:
        packed = engine.passphrase.decrypt(source.read_bytes(), _fold(passphrase))
    except engine.DecryptError as error:
        raise BuilderError(
            f'"{source}" doesn\'t open ({error})',
            "type the passphrase again; a damaged file can't be opened at all",
        ) from error
    _clear_left_over(target.absolute())
    try:
        with tarfile.open(fileobj=io.BytesIO(packed)) as file, replace_folder(target) as fresh:
            fresh.chmod(0o700)
            count = _unpack(file, fresh)
    except tarfile.TarError as error:
        raise BuilderError(f'"{source}" holds no folders ({error})', "give another file") from error
    (target / MARK).unlink()  # nothing replaces this folder again
    return count


def refuse_inside(target: Path, folders: Sequence[Path]) -> None:
    """Refuse to put a locked file into what it locks."""
    for folder in folders:
        if lies_within(target, folder):
            raise BuilderError(f'"{target}" is in "{folder}"', "give a place outside")


def _has_files(target: Path) -> bool:
    return target.is_dir() and any(target.iterdir())


def _open_engine() -> ModuleType:
    try:
        return import_module("pyrage")
    except ImportError as error:
        raise BuilderError(
            "locking needs a further package", 'install it with: pip install "tempoleaf[lock]"'
        ) from error


def _list_files(folders: Sequence[Path]) -> dict[str, Path]:
    """Return every file by its path from the folder in which its own folder lies.

    A link to a file counts as that file. BuilderError for what would be left out.
    """
    names = [folder.absolute().name for folder in folders]
    if len(set(names)) < len(names):
        raise BuilderError(f'two folders are called "{names[0]}"', "give one another name")
    files: dict[str, Path] = {}
    for name, folder in zip(names, folders, strict=True):
        for path in sorted(folder.rglob("*")):
            if path.is_symlink() and not path.is_file():
                raise BuilderError(
                    f'"{path}" is a link to a folder, or to nothing',
                    "put in its place what it stands for",
                )
            if path.is_file():
                files[f"{name}/{path.relative_to(folder).as_posix()}"] = path
    return files


def _pack(files: dict[str, Path]) -> bytes:
    size = sum(path.stat().st_size for path in files.values())
    if size > MOST_BYTES:
        raise BuilderError(
            f"the files have {size} bytes, more than {MOST_BYTES}",
            "move films and the like out of the folders, and lock them with another program",
        )
    target = io.BytesIO()
    with tarfile.open(fileobj=target, mode="w", format=tarfile.PAX_FORMAT) as file:
        for name, path in files.items():
            content = path.read_bytes()
            member = tarfile.TarInfo(name)
            member.size, member.mtime, member.mode = len(content), int(path.stat().st_mtime), 0o600
            file.addfile(member, io.BytesIO(content))
    return target.getvalue()


def _unpack(file: tarfile.TarFile, folder: Path) -> int:
    """Write the files of an archive below a folder; refuse links, devices and ways out of it."""
    count = 0
    for member in file:
        if member.isdir():
            continue
        content = file.extractfile(member) if member.isfile() else None
        parts = PurePosixPath(member.name).parts
        path = folder / member.name
        if content is None or ".." in parts or not path.resolve().is_relative_to(folder.resolve()):
            raise tarfile.TarError(f'"{member.name}" is no plain file in it')
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.read())
        path.chmod(0o600)
        count += 1
    return count


def _clear_left_over(target: Path) -> None:
    """Take away the open files that a run left beside its target when it was killed."""
    for beside in sorted(target.parent.glob(f".{target.name}-*/fresh")):
        if [path.name for path in beside.parent.iterdir()] == [beside.name]:
            shutil.rmtree(beside.parent)


def _fold(passphrase: str) -> str:
    """Write a passphrase in one form, since keyboards write an accent in one sign or in two."""
    return unicodedata.normalize("NFC", passphrase)
