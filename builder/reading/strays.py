"""What lies in the content folder and would be read by nobody: a lost caution says nothing."""

import re
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import FOLDER_ENTRIES, FOLDER_LEVELS
from builder.rules.excess import tell_excess
from builder.work.tree import Entry, EntryKind, lies_within, walk_tree

_UNNOTICED = frozenset({"thumbs.db", "desktop.ini"})
_FOLDERS = ("lessons", "notices")
"""Folders that hold nothing but files that the tool reads."""
_RECORDS = re.compile(r"(people|results|attendance)\b.*\.(csv|xlsx?|ods|tsv)", re.IGNORECASE)
"""Files of a program folder, copies and backups of them too."""


def find_strays(root: Path, content: Path) -> tuple[Finding, ...]:
    """Report files and folders of a course that reading passes over."""
    findings: list[Finding] = []
    for entry in _walk(root, content, findings):
        hidden = entry.path.relative_to(content).parts[:-1]
        if not any(name.startswith(".") for name in hidden):
            findings += _find_misplaced(root, content, entry)
    findings += find_traps(root, content)
    return tuple(findings)


def find_traps(root: Path, content: Path) -> Iterator[Finding]:
    """Report what nobody who walks through a content folder would come back from.

    The host follows every link to a folder, hidden ones too, and those that lead round in circles.
    """
    count = 0
    for entry in _walk(root, content, []):
        count += 1
        place = _place(root, entry.path)
        if entry.kind is EntryKind.LINK and entry.path.is_dir():
            fact = "this folder is a link, and what is behind it isn't read"
            yield rules.TEXT_UNREADABLE.at(place, fact, "put the folder itself here")
        elif entry.kind is EntryKind.OTHER and not _is_read(content, entry.path):
            fact = "this is no plain file"
            yield rules.TEXT_UNREADABLE.at(place, fact, "take it away, or put a file here")
        elif entry.kind is EntryKind.FOLDER and entry.levels > FOLDER_LEVELS.most:
            yield tell_excess(
                place, FOLDER_LEVELS, entry.levels, "move it up", "the way to this folder"
            )
            return
    if count > FOLDER_ENTRIES.most:
        cure = "take away what is no part of the course"
        yield tell_excess(_place(root, content), FOLDER_ENTRIES, count, cure, "the folder")


def _walk(root: Path, content: Path, findings: list[Finding]) -> Iterator[Entry]:
    """Yield what lies in a folder, up to one too many; note what can't be opened."""

    def note(error: OSError) -> None:
        fact = f"the folder can't be opened ({error.strerror})"
        where = _place(root, Path(error.filename))
        findings.append(rules.TEXT_UNREADABLE.at(where, fact, "check that it may be read"))

    return islice(walk_tree(content, FOLDER_LEVELS.most, note), FOLDER_ENTRIES.most + 1)


def _is_read(content: Path, path: Path) -> bool:
    """Tell whether reading the course opens a file, and so says itself what is wrong with it."""
    return path.suffix == ".md" or (path.parent == content and path.suffix == ".yml")


def _find_misplaced(root: Path, content: Path, entry: Entry) -> Iterator[Finding]:
    name, path = entry.path.name, entry.path
    if entry.kind is EntryKind.FOLDER or (entry.kind is EntryKind.LINK and path.is_dir()):
        return
    if entry.kind is EntryKind.LINK and path.suffix != ".md" and not lies_within(path, content):
        fact = "this link leads out of the course"
        yield rules.TEXT_UNREADABLE.at(_place(root, path), fact, "put the file itself here")
    if _RECORDS.fullmatch(name):
        fact = f'"{name}" looks like records of people, and all that lies here is published'
        cure = "move it out, into a program folder beside content/"
        yield rules.FILE_MISPLACED.at(_place(root, path), fact, cure)
        return
    kind, *between = path.relative_to(content).parts[:-1] or ("",)
    if kind not in _FOLDERS or name.startswith(".") or name.lower() in _UNNOTICED:
        return
    if path.suffix != ".md":
        fact = f'nobody reads "{name}", because its name doesn\'t end in .md'
        cure = "give it that ending, or take it away"
        yield rules.FILE_MISPLACED.at(_place(root, path), fact, cure)
    elif kind == "notices" and between:
        fact = f'nobody reads "{name}", because it lies deeper than notices/'
        yield rules.FILE_MISPLACED.at(_place(root, path), fact, "move it up into notices/")


def _place(root: Path, path: Path) -> Place:
    return Place(path.relative_to(root).as_posix())
