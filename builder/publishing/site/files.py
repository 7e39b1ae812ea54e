"""The studio's own files that go into the site as they are: pictures, downloads."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path

from builder import rules
from builder.course.course import Settings
from builder.course.trust import Trust
from builder.findings import Finding, Place, spell_out
from builder.input_limits import (
    FOLDER_ENTRIES,
    FOLDER_LEVELS,
    OWN_FILE_BYTES,
    PICTURE_BYTES,
    PICTURE_DOTS,
)
from builder.publishing.proof.privacy.pictures import MEDIA, PICTURES, count_dots, has_place
from builder.publishing.site.host import is_source
from builder.reading.live_svg import DRAWINGS, find_live_parts
from builder.reading.untrusted_files import take_untrusted
from builder.rules.excess import tell_excess
from builder.work.plain_file import TooLargeError, read_plain
from builder.work.tree import lies_within, walk_tree


def list_own_files(content: Path, settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield every file that comes into the site, by its path from the content folder.

    Files that lie elsewhere and are only linked to are left out: a site shows the course's own.
    """
    for path in sorted(_list_all(content)):
        name = path.relative_to(content).as_posix()
        if path.is_file() and not is_source(name, settings.languages):
            taken = take_own_file(content, name, settings.trust)
            if taken is not None:
                yield name, taken


def take_own_file(content: Path, name: str, trust: Trust) -> bytes | None:
    """Return what of a file may come into the site; None where that is nothing."""
    path = content / name
    if trust.of(name) is Trust.UNTRUSTED:
        return take_untrusted(content, path)
    return path.read_bytes() if lies_within(path, content) else None


def find_own_file_faults(project: Path, content: str) -> tuple[Finding, ...]:
    """Return what keeps files of the content folder from being published as they are."""
    return tuple(
        finding for path in _list_all(project / content) for finding in _judge_file(project, path)
    )


def _list_all(folder: Path) -> Iterator[Path]:
    """Yield all that lies in a folder, as far as a course may go."""
    walked = walk_tree(folder, FOLDER_LEVELS.most, lambda _: None)
    yield from (entry.path for entry in islice(walked, FOLDER_ENTRIES.most))


def _is_written(path: Path) -> bool:
    """Tell whether a path can be written as text; Python reads other bytes as half letters."""
    try:
        str(path).encode()
    except UnicodeEncodeError:
        return False
    return True


def _judge_file(project: Path, path: Path) -> Iterator[Finding]:
    """Report names that are no text, what is too large, and pictures that run or name places."""
    if path.is_symlink() or path.suffix == ".md" or not path.is_file():
        return
    place = Place(spell_out(path.relative_to(project).as_posix()))
    if not _is_written(path):
        fact = "the name of this file has bytes that are no letters, and no address can hold them"
        yield rules.ID_MALFORMED.at(place, fact, "give it another name")
        return
    is_media = path.suffix.lower() in MEDIA
    is_drawing = path.suffix.lower() in DRAWINGS
    most = PICTURE_BYTES if is_drawing or path.suffix.lower() in PICTURES else OWN_FILE_BYTES
    try:
        size = path.stat().st_size
        content = (
            read_plain(path, most.most) if (is_media or is_drawing) and size <= most.most else b""
        )
    except (OSError, TooLargeError):  # it was changed at this moment
        return
    if size > most.most:
        yield tell_excess(place, most, size, "save it smaller", "the file")
        return
    if is_drawing:
        cure = "take it out, or save the drawing as plain SVG"
        for fault in find_live_parts(content):
            yield rules.PICTURE_UNSAFE.at(replace(place, line=fault.line), fault.fact, cure)
        return
    dots = count_dots(content)
    if dots > PICTURE_DOTS.most:
        yield tell_excess(place, PICTURE_DOTS, dots, "save it smaller", "the picture")
    elif has_place(content):
        yield rules.PLACE_IN_PICTURE.at(
            place,
            "the picture says where it was taken",
            "save it again without its place (GPS), or take a picture of the screen",
        )
