"""A finished site as its folder holds it, with the address that its pages give."""

import posixpath
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.errors import BuilderError
from builder.input_limits import SITE_TEXT_BYTES
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.head import PageHead, read_head
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import WrittenPage, parse_written_page
from builder.rules.excess import word_excess

HOME = "index.html"
ERROR_PAGE = "404.html"
OUTSIDE = ".."
"""Stands for a file that no folder of the site can hold."""

_TEXTS = (".html", ".xml", ".gz", ".json", ".js", ".css", ".webmanifest", "_headers")
"""Endings of what is read as text."""


@dataclass(frozen=True, slots=True)
class FinishedSite:
    """Every file of a site, with its pages read."""

    folder: Path
    sizes: Mapping[str, int]
    """Bytes of each file by its path, capitals as they are on the disk."""
    pages: Mapping[str, WrittenPage]
    heads: Mapping[str, PageHead]
    address: str
    """Where the home page says that the site stands, with a slash at the end; may be empty."""

    def lead(self, page: str, target: str) -> tuple[str | None, str]:
        """Return the file that a link means, and its anchor; None where it leaves the site.

        A whole address of this very site leads to its own file.
        """
        within = self.enter(target)
        if within is not None:
            return resolve(HOME, within or "./")
        parts = split_address(target)
        if parts.path.startswith("/") and not parts.scheme and not parts.netloc:
            if not parts.path.startswith(self.root):
                return OUTSIDE, ""
            return resolve(HOME, f"./{target.removeprefix(self.root)}")
        return resolve(page, target)

    def enter(self, url: str) -> str | None:
        """Return what follows the site's address in a whole one; None for all others."""
        ours, theirs = split_address(self.address), split_address(url)
        if not ours.netloc or ours.netloc.casefold() != theirs.netloc.casefold():
            return None
        if theirs.scheme not in ("", "http", "https"):
            return None
        path = theirs.path or "/"
        if not f"{path.rstrip('/')}/".startswith(self.root):
            return None
        rest = path[len(self.root) :]
        if theirs.query:
            rest += f"?{theirs.query}"
        return f"{rest}#{theirs.fragment}" if theirs.fragment else rest

    @property
    def root(self) -> str:
        """Return the path at which the site stands on its host."""
        return split_address(self.address).path or "/"

    def find_twin(self, path: str) -> str | None:
        """Return the first other file whose path differs by capitals only."""
        folded = path.casefold()
        alike = (other for other in self.sizes if other.casefold() == folded and other != path)
        return next(alike, None)

    def address_of(self, page: str) -> str:
        """Return the whole address of a page."""
        folder, name = posixpath.split(page)
        shown = f"{folder}/" if folder and name == HOME else "" if page == HOME else page
        return self.address + shown


def read_finished_site(folder: Path) -> FinishedSite:
    """Read a folder that holds a finished site.

    Raises BuilderError where there is none.
    """
    if not (folder / HOME).is_file():
        raise BuilderError(
            f'there is no finished site in "{folder}"',
            "make one with: tempoleaf build, or name the folder that holds its index.html",
        )
    sizes = {
        path.relative_to(folder).as_posix(): path.stat().st_size
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    _refuse_huge_texts(sizes)
    pages: dict[str, WrittenPage] = {}
    heads: dict[str, PageHead] = {}
    for path in sizes:
        if path.endswith(".html"):
            text = (folder / path).read_text(encoding="utf-8", errors="replace")
            pages[path] = parse_written_page(path, text)
            heads[path] = read_head(text)
    return FinishedSite(folder, sizes, pages, heads, _tidy(heads[HOME].canonical))


def _refuse_huge_texts(sizes: Mapping[str, int]) -> None:
    """Raise BuilderError where a file that is read as text is larger than any that is made."""
    for path, size in sizes.items():
        if size > SITE_TEXT_BYTES.most and path.endswith(_TEXTS):
            fact = word_excess(f'"{path}"', SITE_TEXT_BYTES, size)
            raise BuilderError(fact, "take it away, or build again")


def _tidy(address: str) -> str:
    """Return an address with one slash at its end; a file's name goes."""
    if not split_address(address).netloc:
        return ""
    return f"{address.removesuffix(HOME).rstrip('/')}/"
