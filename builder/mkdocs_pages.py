"""Finished pages that are kept from one build to the next. Part of the plugin's shell."""

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from builder.mkdocs_setup import describe_frame, describe_words, find_search
from builder.mkdocs_sidebar import Sidebar
from builder.mkdocs_words import WordShelf, is_hidden
from builder.publishing.site.additions import Additions
from builder.publishing.site.compiled import StoredTemplates, answer_first
from builder.publishing.site.keys import describe_tool
from builder.publishing.site.pieces import pack, unpack
from builder.work.digest import digest
from builder.work.store import ContentStore

CACHE = Path(".cache", "pages")
"""Where a project keeps pages between builds."""
_MOST_BYTES = 1_000_000_000
"""A course of 1,000 lessons takes 150 MB for each edition that is kept."""
Entries = list[dict[str, object]]


class PageShelf:
    """Keeps pages by everything that they show, and their entries in the search."""

    def __init__(
        self, project: Path, config: MkDocsConfig, own: object, additions: Additions
    ) -> None:
        self._store = ContentStore(project / CACHE)
        self._tool = describe_tool()
        words, frame = describe_words(config, own), describe_frame(config)
        self._words = WordShelf(self._store, words and digest(self._tool, words))
        self._frame = frame and digest(self._tool, frame)
        self._sidebar: Sidebar | None = None
        self.additions = additions
        """What every page gets that isn't kept."""
        self._page: Page | None = None
        self._key: str | None = None
        self._html: str | None = None
        self._entries: Entries = []
        self.made = 0
        self.kept = 0

    def see(self, nav: Navigation, config: MkDocsConfig) -> None:
        """Take note of the navigation."""
        self._sidebar = Sidebar(nav, config)

    def hand_out_words(self, page: Page, files: Files) -> None:
        """Save the host the work on a page's Markdown where its words are kept."""
        self._words.hand_out(page, files)

    def take_part(self, environment: Environment, config: MkDocsConfig) -> None:
        """Stand between the host and its templates, and between it and its search."""
        environment.bytecode_cache = StoredTemplates(self._store, self._tool)
        answer_first(environment, self._answer)
        search = find_search(config)
        if search and search.config.enabled:
            index = search.search_index
            add = partial(self._add_entries, index, index.add_entry_from_context)
            vars(index)["add_entry_from_context"] = add

    def finish(self, page: Page, html: str) -> str:
        """Return a page as it is written: as it is kept, or with our own additions."""
        if self._find(page) is not None:
            self.kept += 1
            return html
        whole = self.additions.finish_page(page.file.src_uri, html)
        piece = pack({"entries": self._entries}, whole) if self._key else None
        if piece and self._key:
            self._store.put(self._key, piece)
        self.made += 1
        return whole

    def close(self) -> str:
        """Make room for the next builds, and tell how much work this one was."""
        self._store.sweep(_MOST_BYTES)
        return f"{self.made} pages made anew, {self.kept} kept"

    def _answer(self, context: Mapping[str, Any]) -> str | None:
        page = context.get("page")
        return self._find(page) if page else None

    def _add_entries(self, index: Any, add: Callable[[Page], None], page: Page) -> None:
        if self._find(page) is not None:
            index.entries.extend(self._entries)
            return
        before = len(index.entries)
        add(page)
        self._entries = index.entries[before:]

    def _find(self, page: Page) -> str | None:
        """Return a page's finished HTML, where it is kept; the host goes from page to page."""
        if page is not self._page:
            self._page, self._key = page, self._describe(page)
            piece = self._store.get(self._key) if self._key else None
            told, self._html = unpack(piece) if piece else ({}, None)
            found: Any = told.get("entries", [])
            self._entries = found
        return self._html

    def _describe(self, page: Page) -> str | None:
        """Return the key of everything that a page shows."""
        words = self._words.keys.get(page.file.src_uri)
        if not (words and self._frame and self._sidebar):
            return None
        if is_hidden(page.file):
            return None
        beside = [
            (other.title, other.url) if other else None
            for other in (page.previous_page, page.next_page)
        ]
        own = (page.title, page.url, page.canonical_url, page.abs_url, page.edit_url)
        shown = repr((own, page.is_homepage, beside, self.additions.describe(page.file.src_uri)))
        return digest("page", self._frame, words, self._sidebar.describe(page), shown)
