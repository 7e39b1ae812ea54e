"""What the host is told, besides what a site's own settings say. Part of the plugin's shell."""

import logging
from collections.abc import Iterable
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from builder.course.language_tag import root_of
from builder.language import Language, language_of
from builder.publishing.pages.assets import FAVICON, FILE_WORKER, SCRIPTS, STYLES
from builder.publishing.pages.head import describe_head
from builder.publishing.pages.links import Site
from builder.publishing.pages.templates import escape_for_host
from builder.publishing.site.edition import Edition
from builder.publishing.site.host import (
    LINK_RULES,
    THEME_FEATURES,
    choose_palette,
    word_foot,
    word_maker,
)
from builder.resources import find_templates

_THEME_LANGUAGE = "en"
_THEME_FAVICON = "assets/images/favicon.png"


def settle(config: MkDocsConfig, edition: Edition) -> None:
    """Give the host what the pages need; what the site's own settings say goes first."""
    config.extra_css[:0] = STYLES
    config.extra_javascript[:0] = SCRIPTS
    config.nav = config.nav or edition.nav
    config.site_name = escape_for_host(config.site_name)
    for rule in LINK_RULES:
        setattr(config.validation.links, rule, logging.WARNING)
    if edition.site and edition.site.is_translation:
        _settle_translation(config, edition, edition.site)
    elif edition.site:
        settings = edition.site.course.settings
        config.site_description = config.site_description or escape_for_host(settings.summary)
        if settings.address and not config.site_url:
            config.site_url = f"{settings.address.rstrip('/')}/"
        config.copyright = config.copyright or word_foot(settings)
    if config.theme.name == "material":
        tag = edition.site.course.settings.language if edition.site else _THEME_LANGUAGE
        _settle_theme(config, edition, language_of(tag))


def _settle_translation(config: MkDocsConfig, edition: Edition, site: Site) -> None:
    """Put the translation's words in place of what the settings say in the original's."""
    settings = site.course.settings
    config.nav = edition.nav
    config.site_name = escape_for_host(settings.title)
    config.site_description = escape_for_host(settings.summary)
    config.site_url = f"{settings.address.rstrip('/')}/" if settings.address else ""
    config.copyright = word_foot(settings)


def _settle_theme(config: MkDocsConfig, edition: Edition, language: Language) -> None:
    theme = config.theme
    theme.dirs.insert(1 if theme.custom_dir else 0, str(find_templates() / "theme"))
    theme["font"] = False
    if not config.use_directory_urls:
        config.extra["polyfills"] = [*config.extra.get("polyfills", ()), FILE_WORKER]
    # The theme makes room for a switch, and leaves what is in it to our template.
    config.extra["alternate"] = bool(edition.switch and edition.switch.folders)
    config.extra["made_with"] = word_maker(language)
    config.extra["tempoleaf"] = describe_head(edition.site)
    if theme.get("favicon") == _THEME_FAVICON:
        theme["favicon"] = FAVICON
    theme["palette"] = theme.get("palette") or choose_palette(language)
    if theme.get("language") == _THEME_LANGUAGE:
        names = (language.tag, root_of(language.tag))
        known = (n for n in names if _has_file(theme.dirs, f"partials/languages/{n}.html"))
        theme["language"] = next(known, _THEME_LANGUAGE)
    theme["features"] = theme.get("features") or list(THEME_FEATURES)


def _has_file(folders: Iterable[str], name: str) -> bool:
    return any((Path(folder) / name).is_file() for folder in folders)
