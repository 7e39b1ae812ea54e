"""What the proof of a site needs of one finished page, read from the page's own bytes.

What was read is kept by a digest of these bytes: a page that changed by one of them is read anew.
"""

import hashlib
import json
import os
from dataclasses import astuple, dataclass
from pathlib import Path

from builder.publishing.cards.run import Shelf
from builder.publishing.keys import describe_whole_tool, digest
from builder.publishing.proof.links import find_strangeness
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import Pointer, parse_written_page


@dataclass(frozen=True, slots=True)
class PageLink:
    """An address on a page, and what it means there."""

    pointer: Pointer
    file: str | None
    """From the site's folder; None where it leads out of the site."""
    anchor: str
    is_strange: bool
    """Whether it loads something from elsewhere, or is no link to a page."""


@dataclass(frozen=True, slots=True)
class SitePage:
    """One page of a finished site."""

    path: str
    digest: str
    """Of its bytes."""
    anchors: frozenset[str]
    links: tuple[PageLink, ...]
    """Each address once, as the article has it where it is in both."""
    letters: str
    """The letters and digits of its words."""

    def to_bytes(self) -> bytes:
        """Pack what was read for the cache."""
        links = [
            [*astuple(link.pointer), link.file, link.anchor, link.is_strange] for link in self.links
        ]
        return json.dumps([sorted(self.anchors), links, self.letters]).encode()

    @classmethod
    def from_bytes(cls, path: str, page_digest: str, piece: bytes) -> "SitePage":
        """Unpack what ``to_bytes`` packed."""
        anchors, links, letters = json.loads(piece)
        read = tuple(PageLink(Pointer(*link[:4]), *link[4:]) for link in links)
        return cls(path, page_digest, frozenset(anchors), read, letters)


def list_files(folder: Path) -> frozenset[str]:
    """Return every file of a finished site, from its folder."""
    return frozenset(
        f"{within}/{name}" if within != "." else name
        for above, _, names in os.walk(folder)
        for within in (Path(above).relative_to(folder).as_posix(),)
        for name in names
    )


def read_site_page(folder: Path, path: str, shelf: Shelf | None) -> SitePage:
    """Read one page of a finished site; what was read of the same bytes lies on the shelf."""
    content = (folder / path).read_bytes()
    page_digest = hashlib.sha256(content).hexdigest()
    key = digest("read page", describe_whole_tool(), path, page_digest)
    piece = shelf.get(key) if shelf else None
    if piece is not None:
        return SitePage.from_bytes(path, page_digest, piece)
    page = _parse(path, page_digest, _decode(content))
    if shelf:
        shelf.put(key, page.to_bytes())
    return page


def _decode(content: bytes) -> str:
    """Return a page's text with the ends of its lines as Python has them."""
    return content.decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")


def _parse(path: str, page_digest: str, text: str) -> SitePage:
    page = parse_written_page(path, text)
    links = tuple(
        PageLink(pointer, *resolve(path, pointer.target), find_strangeness(pointer) is not None)
        for pointer in page.distinct_pointers()
    )
    return SitePage(path, page_digest, page.anchors, links, fold_text(page.text))
