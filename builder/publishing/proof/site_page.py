"""What the proof of a site needs of one finished page, read from the page's own bytes.

What was read is kept by a digest of these bytes: a page that changed by one of them is read anew.
"""

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from builder.publishing.cards.run import Shelf
from builder.publishing.proof.links import find_strangeness
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import Pointer, WrittenPage, parse_written_page
from builder.work.digest import digest
from builder.work.folder_files import FolderFiles
from builder.work.share import share
from builder.work.tool import digest_tool


@dataclass(frozen=True, slots=True)
class PageLink:
    """An address on a page, and what it means there."""

    pointer: Pointer
    file: str | None
    """From the site's folder; None where it leads out of the site."""
    anchor: str


@dataclass(frozen=True, slots=True)
class SitePage:
    """One page of a finished site."""

    path: str
    digest: str
    """Of its bytes."""
    anchors: frozenset[str]
    aims: tuple[tuple[str, str], ...]
    """File and anchor of every link that stays in the site."""
    named: frozenset[str]
    """Files that its article links to, itself left out."""
    is_strange: bool
    """Whether it loads something from elsewhere, or has a link that is none to a page."""
    letters: str
    """The letters and digits of its words."""

    def to_bytes(self) -> bytes:
        """Pack what was read for the cache."""
        sets = sorted(self.anchors), sorted(self.named)
        return json.dumps([*sets, self.aims, self.is_strange, self.letters]).encode()

    @classmethod
    def from_bytes(cls, path: str, page_digest: str, piece: bytes) -> "SitePage":
        """Unpack what ``to_bytes`` packed."""
        anchors, named, aims, is_strange, letters = json.loads(piece)
        return cls(
            path,
            page_digest,
            frozenset(anchors),
            tuple(map(tuple, aims)),
            frozenset(named),
            is_strange,
            letters,
        )


def read_site_pages(
    files: FolderFiles, paths: Iterable[str], shelf: Shelf | None
) -> dict[str, SitePage]:
    """Read pages of a finished site by path; what was read of the same bytes lies on the shelf."""
    pages: dict[str, SitePage | None] = {}
    for path in paths:
        page_digest = files.digest(path)
        piece = shelf.get(_make_key(path, page_digest)) if shelf else None
        pages[path] = SitePage.from_bytes(path, page_digest, piece) if piece else None
    missing = [path for path, page in pages.items() if page is None]
    fresh = share(partial(_read, files.folder), missing)
    for page in fresh:
        if shelf:
            shelf.put(_make_key(page.path, page.digest), page.to_bytes())
    return {path: page for path, page in pages.items() if page} | {p.path: p for p in fresh}


def _make_key(path: str, page_digest: str) -> str:
    return digest("read page", digest_tool(), path, page_digest)


def _read(folder: Path, path: str) -> SitePage:
    content = (folder / path).read_bytes()
    return _sum_up(_parse(path, content), hashlib.sha256(content).hexdigest())


def read_links(folder: Path, path: str) -> tuple[PageLink, ...]:
    """Read each address of a page once, as its article has it where it is in both."""
    return tuple(_list_links(_parse(path, (folder / path).read_bytes())))


def _parse(path: str, content: bytes) -> WrittenPage:
    """Read a page's bytes, with the ends of its lines as Python has them."""
    text = content.decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
    return parse_written_page(path, text)


def _list_links(page: WrittenPage) -> Iterator[PageLink]:
    for pointer in page.distinct_pointers():
        yield PageLink(pointer, *resolve(page.path, pointer.target))


def _sum_up(page: WrittenPage, page_digest: str) -> SitePage:
    links = tuple(_list_links(page))
    aims = ((link.file, link.anchor) for link in links if link.file is not None)
    named = (link.file for link in links if link.file is not None and link.pointer.in_article)
    return SitePage(
        page.path,
        page_digest,
        page.anchors,
        tuple(dict.fromkeys(aims)),
        frozenset(named) - {page.path},
        any(find_strangeness(link.pointer) for link in links),
        fold_text(page.text),
    )
