"""What of a host's settings shapes its pages, as keys of what is kept. Part of the plugin's shell.

A page is kept only where everything that takes part in it is known: plugins, hooks, or extensions
of Markdown that others wrote may read files that no key of ours names.
"""

import json
from collections.abc import Callable, Iterable
from pathlib import PurePath
from typing import Any

from material.plugins.search.plugin import SearchPlugin  # type: ignore[import-untyped]
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin
from mkdocs.theme import Theme

from builder.work.digest import digest

_PLAIN_EXTENSIONS = frozenset(
    {
        *("abbr", "admonition", "attr_list", "codehilite", "def_list", "fenced_code", "footnotes"),
        *("md_in_html", "meta", "nl2br", "sane_lists", "smarty", "tables", "toc", "wikilinks"),
        *("pymdownx.details", "pymdownx.highlight", "pymdownx.inlinehilite", "pymdownx.keys"),
        *("pymdownx.mark", "pymdownx.superfences", "pymdownx.tabbed", "pymdownx.tasklist"),
    }
)
"""Extensions of Markdown that read nothing but the page."""
_FOR_WORDS = ("markdown_extensions", "mdx_configs", "use_directory_urls", "validation")
_NOT_SHOWN = frozenset(
    {
        *("config_file_path", "docs_dir", "site_dir", "dev_addr", "watch", "nav", "pages"),
        *("strict", "remote_branch", "remote_name"),
    }
)
"""Where a site is made, and its navigation, of which each page names its own part."""


def find_search(config: MkDocsConfig) -> SearchPlugin | None:
    """Return the theme's search, where a site has it."""
    plugins = (plugin for plugin in config.plugins.values() if isinstance(plugin, SearchPlugin))
    return next(plugins, None)


def describe_words(config: MkDocsConfig, own: object) -> str | None:
    """Return the key of what turns Markdown into HTML; None where not all of it is known."""
    known = (own, find_search(config))
    if config.hooks or any(plugin not in known for plugin in config.plugins.values()):
        return None
    names = (name.removeprefix("markdown.extensions.") for name in config.markdown_extensions)
    if not _PLAIN_EXTENSIONS.issuperset(names):
        return None
    return _describe({name: config[name] for name in _FOR_WORDS})


def describe_frame(config: MkDocsConfig) -> str | None:
    """Return the key of what all pages have in common; None where not all of it is known."""
    search = find_search(config)
    has_lists = search and (search.config.jieba_dict or search.config.jieba_dict_user)
    if config.theme.name != "material" or config.theme.custom_dir or has_lists:
        return None
    shown = {name: value for name, value in config.items() if name not in _NOT_SHOWN}
    return _describe(shown)


def _describe(things: object) -> str | None:
    try:
        return digest(json.dumps(things, default=_spell))
    except (TypeError, ValueError):  # a setting that no text says whole
        return None


def _spell(thing: object) -> object:
    for kinds, spell in _SPELLINGS:
        if isinstance(thing, kinds):
            return spell(thing)
    raise TypeError(f"no spelling of {type(thing)}")


def _spell_theme(theme: Any) -> object:
    return [theme.name, str(theme.locale), {k: v for k, v in theme.items() if k != "locale"}]


def _spell_plugin(plugin: Any) -> object:
    return [type(plugin).__module__, type(plugin).__qualname__, dict(plugin.config)]


def _spell_set(things: Iterable[object]) -> object:
    return sorted(json.dumps(thing, default=_spell) for thing in things)


_SPELLINGS: tuple[tuple[Any, Callable[[Any], object]], ...] = (
    (Theme, _spell_theme),
    (BasePlugin, _spell_plugin),
    (Config, dict),
    (PurePath, str),
    ((set, frozenset), _spell_set),
)
