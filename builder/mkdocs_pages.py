"""Finished pages that are kept from one build to the next. Part of the plugin's shell."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from builder.mkdocs_entries import remember_entries
from builder.mkdocs_setup import describe_frame, describe_words, find_search
from builder.mkdocs_sidebar import Sidebar
from builder.mkdocs_words import WordShelf, is_hidden
from builder.mkdocs_written import Desk
from builder.publishing.site.additions import Additions
from builder.publishing.site.compiled import StoredTemplates, answer_first
from builder.publishing.site.finished_pages import Entries, FinishedPages
from builder.publishing.site.keys import describe_tool
from builder.work.digest import digest
from builder.work.share import share
from builder.work.store import ContentStore

CACHE = Path(".cache", "pages")
"""Where a project keeps pages between builds."""


class PageShelf:
    """Keeps pages by everything that they show, and their entries in the search."""

    def __init__(
        self, config: MkDocsConfig, own: object, additions: Additions, spare: Path | None
    ) -> None:
        self._store = ContentStore(Path(config.config_file_path).parent / CACHE)
        self._tool = describe_tool()
        words, frame = describe_words(config, own), describe_frame(config)
        self._words = WordShelf(self._store, words and digest(self._tool, words))
        self._frame = frame and digest(self._tool, frame)
        self._pages = FinishedPages(self._store, self._frame or "", Path(config.site_dir), spare)
        self.files = self._pages.files
        self._sidebar: Sidebar | None = None
        self._nav: Navigation | None = None
        self.desk: Desk | None = None
        """What pages are written with, once the host has got that far."""
        self.additions = additions
        """What every page gets that isn't kept."""
        self._page: Page | None = None
        self._key: str | None = None
        self._keys: dict[str, str | None] = {}
        self._html: str | None = None
        self._entries: Entries = []
        self._index: Entries = []
        self._ahead: frozenset[str] = frozenset()
        """Pages that were made before the host came to them."""
        self.made = 0
        self.kept = 0

    def see(self, nav: Navigation, config: MkDocsConfig, files: Files) -> None:
        """Take note of the navigation, and save the host the work on the pages' Markdown."""
        self._sidebar, self._nav = Sidebar(nav, config), nav
        self._words.hand_out(config, files)

    def _take_part(self, environment: Environment, config: MkDocsConfig) -> None:
        """Stand between the host and its templates, and between it and its search."""
        environment.bytecode_cache = StoredTemplates(self._store, self._tool)
        answer_first(environment, self._answer)
        remember_entries(environment, config)
        search = find_search(config)
        if search and search.config.enabled:
            index = search.search_index
            add = partial(self._add_entries, index, index.add_entry_from_context)
            vars(index)["add_entry_from_context"] = add
            self._index = index.entries

    def spare_search(self, page: Page) -> None:
        """Leave the search no words to go through of a page that is kept, with its entries."""
        if self._find(page) is not None:
            page.content = ""

    def make_missing(self, environment: Environment, config: MkDocsConfig, files: Files) -> None:
        """Make pages that aren't kept on all cores, before the host comes to them."""
        self._take_part(environment, config)
        if self._nav is None:
            return
        desk = self.desk = Desk(self._nav, files, config, environment, files.documentation_pages())
        keys = [(page, key) for page in desk.list_pages() if (key := self._find_key(page))]
        missing = [page for page, key in keys if not self._pages.has(key)]
        known = {page.file.dest_uri for page, _ in keys}
        self._pages.take_over(known - {page.file.dest_uri for page in missing})
        before = len(self._index)

        def make(page: Page) -> None:
            if self._find(page) is None:  # else another build has kept it just now
                self._keep(page, desk.write(page))
            del self._index[before:]  # the search is told when the host comes to the page

        for page in missing[:1]:
            make(page)  # loads the templates, for copies of this process too
        share(make, missing[1:])
        self._ahead = frozenset(page.file.src_uri for page in missing)
        self._page = None

    def make_again(self, page: Page, laid_aside: Sequence[str], desk: Desk) -> str:
        """Return a page whose words have changed since the host was done with all pages.

        Nothing is kept of it, and the search isn't told: the next build does both.
        """
        name, before = page.file.src_uri, len(self._index)
        asides = {**self.additions.asides, name: laid_aside}
        self.additions = replace(self.additions, asides=asides)
        self._words.make_again(page, desk.config, desk.files)
        self._page = self._keys[name] = None
        whole = self._keep(page, desk.write(page))
        del self._index[before:]
        return whole

    def finish(self, page: Page, html: str) -> str:
        """Return a page as it is written: as it is kept, or with our own additions."""
        is_ahead = page.file.src_uri in self._ahead
        if self._find(page) is not None:
            self.kept += not is_ahead
            self.made += is_ahead
            return html
        self.made += 1
        return self._keep(page, html)

    def _keep(self, page: Page, html: str) -> str:
        whole = self.additions.finish_page(page.file.src_uri, html)
        if self._key:
            self._pages.put(self._key, whole, self._entries)
        return whole

    def close(self) -> str:
        """Make room for the next builds, and tell how much work this one was."""
        self._pages.save()
        self._store.sweep()
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
            self._page, self._key = page, self._find_key(page)
            key, path = self._key, page.file.dest_uri
            self._html, self._entries = self._pages.fetch(key, path) if key else (None, [])
        return self._html

    def _find_key(self, page: Page) -> str | None:
        """Return the key of a page, which stays as it is once all titles are known."""
        name = page.file.src_uri
        if name not in self._keys:
            self._keys[name] = self._describe(page)
        return self._keys[name]

    def _describe(self, page: Page) -> str | None:
        """Return the key of everything that a page shows."""
        words = self._words.keys.get(page.file.src_uri)
        if not (words and self._frame and self._sidebar) or is_hidden(page.file):
            return None
        shown = _spell(page, self.additions.describe(page.file.src_uri))
        return digest("page", self._frame, words, self._sidebar.describe(page), shown)


def _spell(page: Page, additions: str) -> str:
    """Write what a page has of its own besides its words, and of its neighbours."""
    beside = [
        (other.title, other.url) if other else None
        for other in (page.previous_page, page.next_page)
    ]
    own = (page.title, page.url, page.canonical_url, page.abs_url, page.edit_url)
    return repr((own, page.is_homepage, beside, additions))
