"""Files of people whom the studio doesn't know: pictures are all that a site takes of them."""

import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from builder import rules
from builder.course.trust import Trust
from builder.findings import Finding, Place
from builder.input_limits import PICTURE_BYTES
from builder.reading.file_names import is_unlike_a_page, is_windows_name
from builder.reading.picture_parts import PICTURES, find_picture_fault
from builder.reading.safe_svg import make_safe_svg
from builder.work.plain_file import TooLargeError, read_plain

_DRAWING = ".svg"
_READ = frozenset({".md", ".yml", ".yaml"})
"""Endings of what is read as text, and judged there."""
_UNNOTICED = frozenset({".gitignore", ".gitkeep", ".ds_store", "thumbs.db", "desktop.ini"})
"""What systems leave behind, and no site takes."""
_KEPT = ".originals"
"""Where the tool itself keeps what was translated; no site takes it."""
_TAKE_AWAY = "take it away, or ask the studio to put it in place itself"
_SAVE_ANEW = "save it again as a plain picture, without metadata"


def find_unwanted_files(root: Path, folder: Path, trust: Trust) -> Iterator[Finding]:
    """Report what lies in a content folder, isn't trusted, and doesn't come into the site."""
    for path in _list_untrusted(folder, trust):
        yield from judge_file(root, path)
    yield from _find_twins(root, folder, trust)


def judge_file(root: Path, path: Path) -> Iterator[Finding]:
    """Report what is wrong with one file or folder that isn't trusted."""
    name = path.relative_to(root).as_posix()
    if path.is_symlink():
        fact = "this is a link, which could lead anywhere"
        yield rules.FILE_UNWANTED.at(Place(name), fact, "put the file itself here")
        return
    if is_unlike_a_page(path.name) or is_windows_name(path.name):
        fact = f'"{path.name}" can\'t be part of a web address on every computer'
        cure = "use letters, digits, hyphens and spaces"
        yield rules.FILE_UNWANTED.at(Place(name), fact, cure)
    ending = path.suffix.lower()
    if path.is_dir() or ending in _READ:
        return
    if ending == _DRAWING and path.is_file():
        for fault in make_safe_svg(_read_picture(path)).faults:
            cure = "draw it with plain shapes, and save it as plain SVG"
            yield rules.PICTURE_UNSAFE.at(Place(name, fault.line), fault.fact, cure)
    elif ending in PICTURES and path.is_file():
        damage = find_picture_fault(_read_picture(path), ending)
        if damage:
            yield rules.PICTURE_UNSAFE.at(Place(name), damage, _SAVE_ANEW)
    else:
        fact = "only pictures (PNG, JPEG, WebP, SVG) are taken from people whom nobody knows"
        yield rules.FILE_UNWANTED.at(Place(name), fact, _TAKE_AWAY)


def take_untrusted(root: Path, path: Path) -> bytes | None:
    """Return what of a file may come into the site: a picture whole, a drawing written anew."""
    if any(judge_file(root, path)) or path.suffix.lower() in _READ:
        return None
    content = _read_picture(path)
    return make_safe_svg(content).content if path.suffix.lower() == _DRAWING else content


def _read_picture(path: Path) -> bytes:
    """Return a picture; nothing of one that is too large, which is told as such (X101)."""
    try:
        return read_plain(path, PICTURE_BYTES.most)
    except TooLargeError:
        return b""


def _list_untrusted(folder: Path, trust: Trust) -> Iterator[Path]:
    """Yield files and folders that aren't trusted, in a fixed order; links aren't followed."""
    for above, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if name != _KEPT)
        for name in sorted((*folders, *files)):
            path = Path(above, name)
            within = path.relative_to(folder).as_posix()
            if trust.of(within) is Trust.UNTRUSTED and name.lower() not in _UNNOTICED:
                yield path


def _find_twins(root: Path, folder: Path, trust: Trust) -> Iterator[Finding]:
    """Report files whose names are one and the same on some computers."""
    paths = list(_list_untrusted(folder, trust))
    counts = Counter(path.as_posix().casefold() for path in paths)
    for path in paths:
        if counts[path.as_posix().casefold()] > 1:
            place = Place(path.relative_to(root).as_posix())
            fact = f'another file is called "{path.name}" but for small and capital letters'
            yield rules.FILE_UNWANTED.at(place, fact, "give it another name")
