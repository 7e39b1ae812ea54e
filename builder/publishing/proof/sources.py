"""The files that people wrote, so that a fault of a page is told where its author can mend it."""

import posixpath
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.findings import Place
from builder.publishing.pages.links import SAFETY, Site, lesson_page
from builder.publishing.proof.address import split_address
from builder.publishing.proof.target import resolve
from builder.reading.references import find_addresses
from builder.reading.text_file import read_text

SETTINGS = "mkdocs.yml"
"""What writes the frame around pages, from the project's folder."""


@dataclass(frozen=True, slots=True)
class Sources:
    """What stands on each finished page, and who wrote it."""

    site: Site
    project: Path
    content: str
    own: Mapping[str, str]
    """Finished page to the file of the project that its author wrote."""

    def name(self, page: str) -> Place:
        """Return the file that a page's author wrote, or the page itself where nobody did."""
        return Place(self.own.get(page, page))

    def find(self, page: str, target: str) -> tuple[Place, str] | None:
        """Return where an author wrote a page's link, and as what; None if no author did."""
        for file in self._list_files(page):
            for address, place in find_addresses(self._read(file), file):
                if address == target or self._resolve(page, address) == resolve(page, target):
                    return place, address
        return None

    def find_in_frame(self, file: str) -> Place:
        """Return the line of the site's settings that names a file."""
        for number, line in enumerate(self._read(SETTINGS).split("\n"), 1):
            if file in line:
                return Place(SETTINGS, number, line.index(file) + 1)
        return Place(SETTINGS)

    def _list_files(self, page: str) -> Iterator[str]:
        """Yield the files whose texts stand on a page, its own first."""
        if page in self.own:
            yield self.own[page]
        if page == self.site.file(SAFETY):
            yield from (notice.place.path for notice in self.site.course.notices)

    def _read(self, file: str) -> str:
        text, _ = read_text(self.project, self.project / file)
        return text or ""

    def _resolve(self, page: str, address: str) -> tuple[str | None, str]:
        """Resolve an address that may name a Markdown page, as authors do."""
        path = split_address(address).path
        if not path.endswith(".md"):
            return resolve(page, address)
        own = self.own.get(page, "").removeprefix(f"{self.content}/")
        source = posixpath.normpath(posixpath.join(posixpath.dirname(own), path))
        return self.site.file(source), split_address(address).fragment


def list_sources(site: Site, project: Path, content: str, written: Mapping[str, str]) -> Sources:
    """List the file that stands behind each page of a site, where somebody wrote one."""
    own = {site.file(path): f"{content}/{file}" for path, file in written.items()}
    own |= {site.file(lesson_page(lesson)): lesson.path for lesson in site.course.lessons}
    return Sources(site, project, content, own)
