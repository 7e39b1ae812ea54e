"""Finished pages that are kept between builds, with their entries in the search.

A page that stays the same isn't even written again where an older site has it. What is needed
for that is kept apart from the letters of the pages, in one piece.
"""

import hashlib
import json
from collections.abc import Container
from pathlib import Path
from typing import Any

from builder.publishing.site.pieces import pack, unpack
from builder.work.bundle import open_bundle
from builder.work.folder_files import FolderFiles
from builder.work.spare import take_over
from builder.work.store import ContentStore

PAGE = ".html"
SPARE = Path(".cache", "site")
"""Where a project keeps the pages of the site before, for the next one to have."""
IN_PLACE = ""
"""The letters of a page that the new site has already: a host writes no empty page."""
Entries = list[dict[str, object]]


class FinishedPages:
    """Pages by the keys of everything that they show."""

    def __init__(self, store: ContentStore, name: str, site: Path, spare: Path | None) -> None:
        self.files = FolderFiles(site)
        """The site that is being made."""
        self._store = store
        self._told = open_bundle(store, "told", name)
        self._spare = spare

    def take_over(self, wanted: Container[str]) -> None:
        """Have the site, still empty, take over its files of some paths from the one before."""
        if self._spare:
            take_over(self._spare, self.files.folder, wanted)

    def fetch(self, key: str, path: str) -> tuple[str | None, Entries]:
        """Return the HTML and the entries of the page at a path; None where it isn't kept."""
        told = self._find(key)
        if told and self._has(path, told["hash"]):
            return IN_PLACE, told["entries"]
        piece = self._store.get(key)
        if piece is None:
            return None, []
        kept, html = unpack(piece)
        entries: Any = kept["entries"]
        if not told:
            page_hash = hashlib.sha256(html.encode()).hexdigest()
            self._told.put(key, json.dumps({"hash": page_hash, "entries": entries}).encode())
        return html, entries

    def has(self, key: str) -> bool:
        """Tell whether a page is kept."""
        return self._store.has(key)

    def put(self, key: str, html: str, entries: Entries) -> None:
        """Keep a page, if it can be kept to the letter."""
        piece = pack({"entries": entries}, html)
        if piece:
            self._store.put(key, piece)

    def save(self) -> None:
        """Keep what was learned of the pages that the host came to."""
        self._told.save()

    def _find(self, key: str) -> dict[str, Any] | None:
        piece = self._told.get(key)
        told: dict[str, Any] | None = json.loads(piece) if piece else None
        return told

    def _has(self, path: str, page_hash: str) -> bool:
        """Tell whether the site has a page already, to the byte."""
        try:
            return self.files.digest(path) == page_hash
        except OSError:
            return False
