"""What of the navigation stands on a page, as part of its key. Part of the plugin's shell."""

import json
from collections.abc import Sequence
from functools import cached_property
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from builder.publishing.site.host import THEME_FEATURES
from builder.work.digest import digest

_SHOWN = ("icon", "subtitle", "status")
"""What the theme shows of the head of a page in the navigation."""


class Sidebar:
    """The lists of a navigation, each described once for all pages that show it.

    A section that a page doesn't stand in shows its title and leads to its first page; of the
    sections that it does stand in, all entries are shown. Other features of the theme may show
    more; then every page depends on the whole navigation.
    """

    def __init__(self, nav: Navigation, config: MkDocsConfig) -> None:
        self._items = nav.items
        self._lists: dict[int, str] = {}
        self._is_short = is_short(config)
        self._home = nav.homepage.url if nav.homepage else ""

    def describe(self, page: Page) -> str:
        """Return a digest of everything that a page shows of the navigation."""
        chain = (page, *page.ancestors)
        shown = (self._place(item) for item in chain)
        return digest(self._home, self._whole, *shown)

    @cached_property
    def _whole(self) -> str:
        """Describe everything, once all titles are known, where pages may show it."""
        return "" if self._is_short else digest(_dump(_tell_all(self._items)))

    def _place(self, item: StructureItem) -> str:
        siblings = item.parent.children if item.parent else self._items
        places = [place for place, other in enumerate(siblings) if other is item]
        if id(siblings) not in self._lists:
            self._lists[id(siblings)] = digest(_dump([_tell(other) for other in siblings]))
        return f"{self._lists[id(siblings)]} {places}"


def is_short(config: MkDocsConfig) -> bool:
    """Tell whether pages show no more of a closed section than its title and its first page."""
    features = set(config.theme.get("features") or ())
    return "navigation.prune" in features and features <= set(THEME_FEATURES)


def _tell(item: Any) -> list[object]:
    """Say what an entry shows while a page elsewhere is open."""
    if item.is_section:
        # The theme looks through a closed section for its index, and leaves a blank for each entry.
        blanks = [getattr(child, "is_index", False) for child in item.children]
        return [item.title, blanks, *(_tell(first) for first in item.children[:1])]
    meta = getattr(item, "meta", None) or {}
    shown = [meta.get(name) for name in _SHOWN]
    return [item.title, item.url, getattr(item, "is_index", False), *shown]


def _tell_all(items: Sequence[Any]) -> list[object]:
    return [
        [item.title, _tell_all(item.children)]
        if item.is_section
        else [*_tell(item), getattr(item, "meta", None)]
        for item in items
    ]


def _dump(told: object) -> str:
    return json.dumps(told, default=repr)
