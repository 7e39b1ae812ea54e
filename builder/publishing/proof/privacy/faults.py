"""Reads every file of a finished site for what belongs to the people of its program folders."""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path, PurePosixPath

from builder import rules
from builder.findings import Finding, Place, sort_findings, spell_out
from builder.publishing.cards.run import Shelf
from builder.publishing.proof.privacy.contents import list_pieces
from builder.publishing.proof.privacy.course_words import list_course_words
from builder.publishing.proof.privacy.letters import (
    Folded,
    fold,
    join_across_tags,
    leave_tags_out,
    undo_escapes,
    undo_slashes,
)
from builder.publishing.proof.privacy.marks import Marks, list_marks
from builder.publishing.proof.privacy.piece import Piece, UnreadableError
from builder.records.folder import (
    ATTENDANCE,
    COACH,
    PEOPLE,
    RESULTS,
    find_program_folder,
    find_program_folders,
)
from builder.records.table_file import CSV, SPREADSHEET
from builder.records.told_of_people import read_told
from builder.work.digest import digest, spell
from builder.work.folder_files import FolderFiles
from builder.work.tool import digest_tool
from builder.work.whole import MARK

_CURE = (
    "take it out of what the course says; where nobody is meant, list it under "
    '"public_names" in studio.yml of the program folder'
)
_COPY_CURE = "take it out of the folder that it comes from, and build again"
_PLACE_CURE = "save it again without its place (GPS), or take a picture of the screen"
_RECORDS = frozenset(
    f"{name}{ending}" for name in (PEOPLE, RESULTS, ATTENDANCE) for ending in (CSV, SPREADSHEET)
)
_OF_NOBODY = "cards"
"""In the coach's folder: cards with a coach's notes, the same for everybody."""
_FEWEST_BYTES = 16
"""Files of less are alike by chance."""
_NOTHING_FOUND = b"nothing found"
_TAKES_LONG = ".pdf"
"""Has no place, and no record by its name."""
_LONGEST_LINES = 20_000
"""In more lines than these no line is looked for."""


@dataclass(frozen=True)
class PrivateFolders:
    """What must not be published: marks of people, and whole files by their digest."""

    marks: tuple[Marks, ...]
    files: dict[bytes, str]
    """Digest to how the file is written: the program folder's name, then the rest."""
    folders: Mapping[str, frozenset[str]]
    """What stands in each program folder, by the folder's name."""

    @cached_property
    def key(self) -> str:
        """Return a digest of all that is looked for, and of the tool that looks."""
        marks = map(spell, (self.marks, self.files, self.folders))
        return digest(digest_tool(), *marks)


def find_private_faults(
    project: Path,
    site: FolderFiles,
    programs: Sequence[Path] | None = None,
    content: str = "content",
    shelf: Shelf | None = None,
) -> tuple[Finding, ...]:
    """Return a finding for each text of people in a finished site.

    Looks for the people of a project's own program folders where none are given; without any,
    only for records and for places where pictures were taken. BuilderError where these folders
    can't be read, since nobody could tell then. The ``shelf`` knows files in which nothing was
    found before, by their bytes and by what was looked for.
    """
    folders = find_program_folders(project) if programs is None else programs
    private = read_private(folders, project / content, project / COACH)
    found: list[Finding] = [*_tell_unsought(private.marks)]
    for name in site.list_names():
        if folders or not name.endswith(_TAKES_LONG):
            found += _find_unless_known(private, site, name, shelf)
    return sort_findings(found)


def _find_unless_known(
    private: PrivateFolders, site: FolderFiles, path: str, shelf: Shelf | None
) -> tuple[Finding, ...]:
    """Return what of people stands in a file; nothing where the shelf knows that nothing does."""
    key = digest("private", private.key, path, site.digest(path))
    if shelf and shelf.get(key) == _NOTHING_FOUND:
        return ()
    found = tuple(find_in_file(private, path, site.read(path)))
    if shelf and not found:
        shelf.put(key, _NOTHING_FOUND)
    return found


def find_programs(project: Path, given: Sequence[Path] | None) -> tuple[Path, ...]:
    """Return the program folders that were given, or those of a project."""
    if given:
        return tuple(find_program_folder(project, folder) for folder in given)
    return find_program_folders(project)


def say_searched(folders: Sequence[Path]) -> str:
    """Say whose people were looked for."""
    if not folders:
        return "No program folder is beside it, so nobody's name was looked for."
    names = " and ".join(f'"{spell_out(folder.name)}"' for folder in folders)
    return f"Every file was read for names, goals and notes of the people in {names}."


def read_private(
    folders: Sequence[Path], content: Path | None, coach: Path | None = None
) -> PrivateFolders:
    """Read what program folders tell of people, and which files they and the coach's have."""
    words = list_course_words(content) if folders else frozenset()
    marks = [each for folder in folders for each in list_marks(read_told(folder), words)]
    private = (*folders, *((coach,) if coach else ()))
    files = {
        hashlib.sha256(path.read_bytes()).digest(): (
            f"{folder.absolute().name}/{path.relative_to(folder).as_posix()}"
        )
        for folder in private
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.stat().st_size >= _FEWEST_BYTES and path.name != MARK
        if folder != coach or path.relative_to(folder).parts[0] != _OF_NOBODY
    }
    inside = {
        each.absolute().name: frozenset(path.name for path in each.iterdir()) for each in folders
    }
    return PrivateFolders(tuple(marks), files, inside)


def find_in_file(private: PrivateFolders, path: str, content: bytes) -> Iterator[Finding]:
    """Yield what of people stands in one file or in its name."""
    named = _find_in_path(private, path)
    place = Place(named[0] if named else path)
    if named:
        yield rules.PRIVATE_TEXT.at(Place(named[0]), f"the file's path has {named[1]}", _CURE)
    copied = private.files.get(hashlib.sha256(content).digest())
    if copied:
        fact = f'this is a copy of the private file "{_hide(private, copied)}"'
        yield rules.PRIVATE_TEXT.at(place, fact, _COPY_CURE)
    elif PurePosixPath(path).name.lower() in _RECORDS:
        yield rules.PRIVATE_TEXT.at(place, "this has the name of a file of records", _COPY_CURE)
    told: set[str] = set()
    try:
        for piece in list_pieces(path, content):
            for what in _find_in_piece(private.marks, piece):
                where = f" stands in {piece.spot}" if piece.spot else " stands here"
                if what + where not in told:
                    told.add(what + where)
                    spot = _find_line(private.marks, piece, place)
                    yield rules.PRIVATE_TEXT.at(spot, what + where, _CURE)
            if piece.is_place:
                yield _tell_place(piece, place)
    except UnreadableError as error:
        if not private.marks:
            return
        fact = f"the file can't be opened ({error}), so that nobody can tell whom it names"
        yield rules.PRIVATE_TEXT.at(place, fact, "put a file here that opens without a password")


def _tell_place(piece: Piece, place: Place) -> Finding:
    where = f" (it stands in {piece.spot})" if piece.spot else ""
    fact = f"the picture says where it was taken{where}"
    return rules.PLACE_IN_PICTURE.at(place, fact, _PLACE_CURE)


def _find_in_piece(marks: Sequence[Marks], piece: Piece) -> list[str]:
    texts = fold_piece(piece) if marks else ()
    found = [
        what if not each.person_id else f'{what} of "{each.person_id}"'
        for text in texts
        for each in marks
        for what in each.find(text, is_code=piece.is_code)
    ]
    return list(dict.fromkeys(found))


def fold_piece(piece: Piece) -> tuple[Folded, ...]:
    """Return every way in which a text can be read: as it is, and by its tags."""
    text = undo_escapes(piece.text)
    if not piece.has_tags:
        return (fold(text),)
    plain = undo_slashes(piece.text)
    tags_out = undo_escapes(leave_tags_out(plain))
    return fold(tags_out), fold(undo_escapes(join_across_tags(plain)))


def _find_line(marks: Sequence[Marks], piece: Piece, place: Place) -> Place:
    """Return the first line of a file that alone has something of people; else its beginning."""
    lines = piece.text.splitlines()
    if piece.spot or len(lines) > _LONGEST_LINES:
        return place
    for number, line in enumerate(lines, 1):
        if _find_in_piece(marks, Piece("", line, piece.has_tags, piece.is_code)):
            return Place(place.path, number)
    return place


def _find_in_path(private: PrivateFolders, path: str) -> tuple[str, str] | None:
    """Return a path with the telling part hidden, and what that part has; None for most."""
    parts = PurePosixPath(path).parts
    for part, inner in pairwise(parts):
        if inner in private.folders.get(part, ()):
            return path, "the name of a program folder"
    shown = _hide(private, path)
    if shown == path:
        return None
    found = (
        f'{what} of "{each.person_id}"'
        for part in parts
        for each in private.marks
        for what in each.find_in_name(fold(undo_escapes(part)))
    )
    return shown, next(found)


def _hide(private: PrivateFolders, path: str) -> str:
    """Write a path so that it names nobody by more than their id."""
    return "/".join(_hide_part(private, part) for part in path.split("/"))


def _hide_part(private: PrivateFolders, part: str) -> str:
    for each in private.marks:
        if any(True for _ in each.find_in_name(fold(undo_escapes(part)))):
            return f"(named after {each.person_id}){PurePosixPath(part).suffix}"
    return part


def _tell_unsought(marks: Sequence[Marks]) -> Iterator[Finding]:
    for each in marks:
        if each.unsought:
            fact = f'the name of "{each.person_id}" is {each.unsought}, so it is not looked for'
            yield rules.NAME_UNSOUGHT.at(
                Place("people"), fact, "give a longer display name, or read the pages yourself"
            )
