"""What lies in a content folder, as a digest: names, kinds and every byte of every file."""

import hashlib
import os
from contextlib import suppress
from itertools import islice
from pathlib import Path

from builder.input_limits import FOLDER_ENTRIES, FOLDER_LEVELS, LEDGER_BYTES
from builder.work.plain_file import TooLargeError, read_plain
from builder.work.tree import EntryKind, walk_tree

_TEXTS = frozenset({".md", ".yml", ".yaml"})


def digest_folder(folder: Path) -> str | None:
    """Return a digest of all that reading a folder can see, hidden files with it.

    None where that can't be told: a part is missing, may not be read, is a link or another thing
    that is no plain file, or there is more than reading takes.
    """
    digest = hashlib.sha256()
    try:
        if folder.is_symlink():
            return None
        entries = walk_tree(folder, FOLDER_LEVELS.most)
        for count, entry in enumerate(islice(entries, FOLDER_ENTRIES.most + 1), start=1):
            if entry.levels > FOLDER_LEVELS.most or count > FOLDER_ENTRIES.most:
                return None
            name = os.path.relpath(entry.path, folder)
            digest.update(f"\0{len(name)}\0{name}\0".encode("utf-8", "surrogateescape"))
            if entry.kind is EntryKind.FOLDER:
                digest.update(b"folder")
            elif entry.kind is EntryKind.FILE:
                with entry.path.open("rb") as file:
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
    walked = walk_tree(root / content, FOLDER_LEVELS.most, lambda _: None)
    entries = islice(walked, FOLDER_ENTRIES.most)
    texts = (entry.path for entry in entries if entry.path.suffix in _TEXTS)
    digests: dict[str, str] = {}
    for path in sorted(texts):
        with suppress(OSError, TooLargeError):
            text = read_plain(path, LEDGER_BYTES.most)
            digests[path.relative_to(root).as_posix()] = hashlib.sha256(text).hexdigest()
    return digests
