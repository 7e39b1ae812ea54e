"""The studio's own files that go into the site as they are: pictures, downloads."""

from collections.abc import Iterator
from pathlib import Path

from builder import rules
from builder.course.course import Settings
from builder.course.trust import Trust
from builder.findings import Finding, Place
from builder.publishing.proof.privacy.pictures import MEDIA, has_place
from builder.publishing.site.host import is_source
from builder.reading.untrusted_files import take_untrusted


def list_own_files(content: Path, settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield every file that comes into the site, by its path from the content folder.

    Files that lie elsewhere and are only linked to are left out: a site shows the course's own.
    """
    for path in sorted(content.rglob("*")):
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


def find_own_file_faults(project: Path, content: str) -> Iterator[Finding]:
    """Report pictures and films that say where they were taken."""
    for path in sorted((project / content).rglob("*")):
        if path.suffix.lower() in MEDIA and path.is_file() and has_place(path.read_bytes()):
            yield rules.PLACE_IN_PICTURE.at(
                Place(path.relative_to(project).as_posix()),
                "the picture says where it was taken",
                "save it again without its place (GPS), or take a picture of the screen",
            )


def lies_within(path: Path, folder: Path) -> bool:
    """Tell whether a file is really in a folder, links followed."""
    return path.resolve().is_relative_to(folder.resolve())
