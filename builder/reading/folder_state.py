"""What lies in a content folder, as a digest: names, kinds and every byte of every file."""

import hashlib
import os
from contextlib import suppress
from pathlib import Path

_TEXTS = frozenset({".md", ".yml", ".yaml"})


def digest_folder(folder: Path) -> str | None:
    """Return a digest of all that reading a folder can see, hidden files with it.

    None where that can't be told: a part is missing, may not be read, or is a link or another
    thing that is no plain file.
    """
    digest = hashlib.sha256()
    try:
        if folder.is_symlink():
            return None
        for entry in _list_entries(str(folder)):
            name = os.path.relpath(entry.path, folder)
            digest.update(f"\0{len(name)}\0{name}\0".encode("utf-8", "surrogateescape"))
            if entry.is_dir(follow_symlinks=False):
                digest.update(b"folder")
            elif entry.is_file(follow_symlinks=False):
                with Path(entry.path).open("rb") as file:
                    digest.update(hashlib.file_digest(file, "sha256").digest())
            else:
                return None
    except OSError:
        return None
    return digest.hexdigest()


def digest_sources(root: Path, content: str) -> dict[str, str]:
    """Return the SHA-256 of each text that a course is read from, by its path from a project.

    What can't be opened isn't there: reading it is a finding of its own.
    """
    texts = (path for path in (root / content).rglob("*") if path.suffix in _TEXTS)
    digests: dict[str, str] = {}
    for path in sorted(texts):
        with suppress(OSError), path.open("rb") as file:
            name = path.relative_to(root).as_posix()
            digests[name] = hashlib.file_digest(file, "sha256").hexdigest()
    return digests


def _list_entries(folder: str) -> list[os.DirEntry[str]]:
    """Return every entry below a folder, in a fixed order; links are no folders."""
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    every: list[os.DirEntry[str]] = []
    for entry in entries:
        every.append(entry)
        if entry.is_dir(follow_symlinks=False):
            every += _list_entries(entry.path)
    return every
