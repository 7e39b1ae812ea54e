"""What lies in the content folder and would be read by nobody: a lost caution says nothing."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place

_UNNOTICED = frozenset({"thumbs.db", "desktop.ini"})
_FOLDERS = ("lessons", "notices")
"""Folders that hold nothing but files that the tool reads."""
_RECORDS = re.compile(r"(people|results|attendance)\b.*\.(csv|xlsx?|ods|tsv)", re.IGNORECASE)
"""Files of a program folder, copies and backups of them too."""


def find_strays(root: Path, content: Path) -> tuple[Finding, ...]:
    """Report files and folders of a course that reading passes over."""
    findings: list[Finding] = []

    def note(error: OSError) -> None:
        fact = f"the folder can't be opened ({error.strerror})"
        where = _place(root, Path(error.filename))
        findings.append(rules.TEXT_UNREADABLE.at(where, fact, "check that it may be read"))

    for folder, folders, files in os.walk(content, onerror=note):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for path in (Path(folder, name) for name in folders):
            if path.is_symlink():
                fact = "this folder is a link, and what is behind it isn't read"
                cure = "put the folder itself here"
                findings.append(rules.TEXT_UNREADABLE.at(_place(root, path), fact, cure))
        findings += _find_misplaced(root, content, [Path(folder, name) for name in files])
    return tuple(findings)


def _find_misplaced(root: Path, content: Path, files: list[Path]) -> Iterator[Finding]:
    for path in files:
        name = path.name
        if path.is_symlink() and path.suffix != ".md" and not _lies_within(path, content):
            fact = "this link leads out of the course"
            yield rules.TEXT_UNREADABLE.at(_place(root, path), fact, "put the file itself here")
        if _RECORDS.fullmatch(name):
            fact = f'"{name}" looks like records of people, and all that lies here is published'
            cure = "move it out, into a program folder beside content/"
            yield rules.FILE_MISPLACED.at(_place(root, path), fact, cure)
            continue
        kind, *between = path.relative_to(content).parts[:-1] or ("",)
        if kind not in _FOLDERS or name.startswith(".") or name.lower() in _UNNOTICED:
            continue
        if path.suffix != ".md":
            fact = f'nobody reads "{name}", because its name doesn\'t end in .md'
            cure = "give it that ending, or take it away"
            yield rules.FILE_MISPLACED.at(_place(root, path), fact, cure)
        elif kind == "notices" and between:
            fact = f'nobody reads "{name}", because it lies deeper than notices/'
            yield rules.FILE_MISPLACED.at(_place(root, path), fact, "move it up into notices/")


def _lies_within(path: Path, folder: Path) -> bool:
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # a link in a circle
        return False


def _place(root: Path, path: Path) -> Place:
    return Place(path.relative_to(root).as_posix())
