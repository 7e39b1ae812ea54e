"""The theme's list of closed sections, written once for many pages. Part of the plugin's shell."""

from collections.abc import Callable
from typing import Any

from jinja2 import ChoiceLoader, DictLoader, Environment, TemplateNotFound
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page
from mkdocs.utils import normalize_url

from builder.mkdocs_sidebar import is_short
from builder.work.digest import digest

_LIST = "partials/nav.html"
_KNOWN = {
    _LIST: "b26fd6210465e1308c6aa0dda46caed956202a63f2bfa0dc4c043116dd1c4957",
    "partials/nav-item.html": "09eeefa15c5e4c13570a0f894f35e43c37dc1339e8f2b82ff4a360c9032593ea",
}
"""Digests of the theme's templates of which it is known what an entry depends on."""
_CALL = "item.render(nav_item, path, 1)"
_ASK = "show_entry(page, nav_item, path, item.render)"
Render = Callable[[Any, str, int], str]


class Entries:
    """Entries of the sidebar's first level, by their place and where they lead from a page."""

    def __init__(self) -> None:
        self._written: dict[tuple[str, str], str] = {}

    def show(self, page: Page | None, item: Any, path: str, render: Render) -> str:
        """Return an entry; a closed one leads to its first page and shows nothing else of a page.

        ``render`` is the theme's own way to write it.
        """
        url = _find_url(item)
        if page is None or url is None or item.active:
            return render(item, path, 1)
        key = path, normalize_url(url, page)
        if key not in self._written:
            self._written[key] = render(item, path, 1)
        return self._written[key]


def remember_entries(environment: Environment, config: MkDocsConfig) -> bool:
    """Have the theme write closed sections once; False where it isn't the theme that is known."""
    loader = environment.loader
    if loader is None or not is_short(config):
        return False
    try:
        texts = {name: loader.get_source(environment, name)[0] for name in _KNOWN}
    except TemplateNotFound:
        return False
    if {name: digest(text) for name, text in texts.items()} != _KNOWN:
        return False
    ours = DictLoader({_LIST: texts[_LIST].replace(_CALL, _ASK)})
    environment.globals["show_entry"] = Entries().show
    environment.loader = ChoiceLoader([ours, loader])
    return True


def _find_url(item: Any) -> str | None:
    """Return where an entry leads while it is closed: to the first page within."""
    while item.children:
        item = item.children[0]
    url: str | None = getattr(item, "url", None)
    return url
