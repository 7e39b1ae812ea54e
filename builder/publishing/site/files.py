"""The studio's own files that go into the site as they are: pictures, downloads."""

from collections.abc import Collection, Iterator
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.privacy.pictures import MEDIA, has_place
from builder.publishing.site.host import is_source


def list_own_files(content: Path, languages: Collection[str]) -> Iterator[tuple[str, Path]]:
    """Yield every file that is copied, by its path from the content folder.

    Files that lie elsewhere and are only linked to are left out: a site shows the course's own.
    """
    for path in sorted(content.rglob("*")):
        name = path.relative_to(content).as_posix()
        if path.is_file() and not is_source(name, languages) and lies_within(path, content):
            yield name, path


def find_own_file_faults(project: Path, content: str) -> tuple[Finding, ...]:
    """Return what keeps files of the content folder from being published as they are."""
    return (*_find_links_outside(project, content), *_find_places(project, content))


def _find_links_outside(project: Path, content: str) -> Iterator[Finding]:
    """Report files of the content folder that are links to somewhere else."""
    folder = project / content
    for path in sorted(folder.rglob("*")):
        if path.is_symlink() and not lies_within(path, folder) and path.suffix != ".md":
            yield rules.TEXT_UNREADABLE.at(
                Place(path.relative_to(project).as_posix()),
                "this link leads out of the course",
                "put the file itself here",
            )


def _find_places(project: Path, content: str) -> Iterator[Finding]:
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
