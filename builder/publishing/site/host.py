"""What a host has to know to turn the pages into a site."""

import json
from collections.abc import Collection

from builder.course.course import Settings
from builder.course.language_tag import root_of
from builder.language import Language, language_of, mark
from builder.publishing.pages.assets import FAVICON, SCRIPTS, STYLES
from builder.publishing.pages.head import describe_head
from builder.publishing.pages.links import Site
from builder.publishing.pages.templates import escape_for_host
from builder.publishing.site.nav import Nav
from builder.reading.translation.names import split_language

DOCS = "docs"
"""Where pages lie in a plain folder."""
THEME = "theme"
"""Where what the theme needs of us lies in a plain folder."""
LINK_RULES = ("anchors", "not_found", "absolute_links", "unrecognized_links")
"""Faults in links that a host is asked to report."""

THEME_FEATURES = (
    "navigation.indexes",
    "navigation.prune",
    "navigation.top",
    "navigation.footer",
    "toc.follow",
    "search.highlight",
)
"""Features of the theme: a strand's page is its heading in the navigation, lists stay short."""
_OWN_COLOURS = {"primary": "custom", "accent": "custom"}
_PALETTE = (
    (
        {"media": "(prefers-color-scheme: light)", "scheme": "default", **_OWN_COLOURS},
        ("material/weather-night", mark("Use the dark scheme")),
    ),
    (
        {"media": "(prefers-color-scheme: dark)", "scheme": "slate", **_OWN_COLOURS},
        ("material/weather-sunny", mark("Use the light scheme")),
    ),
)
"""Light and dark by the device's wish, each with a switch to the other."""


def choose_palette(language: Language) -> list[dict[str, object]]:
    """Return the light and the dark scheme, with their switches named in a language."""
    return [
        {**scheme, "toggle": {"icon": icon, "name": language.say(name)}}
        for scheme, (icon, name) in _PALETTE
    ]


def is_source(path: str, languages: Collection[str]) -> bool:
    """Tell whether a file of the content folder is read by the tool and never a page itself.

    ``languages`` are those of the course's translations.
    """
    folder, _, _ = path.partition("/")
    is_read = folder in ("lessons", "notices") or split_language(path, languages)[1]
    return path.endswith((".yml", ".yaml")) or bool(is_read and path.endswith(".md"))


def word_foot(settings: Settings) -> str:
    """Name the studio and give the course's caution, as the foot of each page does."""
    studio = ", ".join(part for part in (settings.studio.name, settings.studio.contact) if part)
    return escape_for_host(f"{studio}. {settings.caution}")


def word_maker(language: Language) -> str:
    """Say at the foot of each page what it was made with."""
    return language.say("Made with {tool}.", tool="tempoleaf")


def write_settings(site: Site, nav: Nav) -> str:
    """Write ``mkdocs.yml`` for pages that need no plugin: JSON values are YAML values."""
    course = site.course
    language = language_of(course.settings.language)
    settings = {
        "site_name": escape_for_host(course.settings.title),
        "site_description": escape_for_host(course.settings.summary),
        "site_url": course.settings.address,
        "copyright": word_foot(course.settings),
        "docs_dir": DOCS,
        "theme": {
            "name": "material",
            "custom_dir": THEME,
            "font": False,
            "favicon": FAVICON,
            "features": THEME_FEATURES,
            "language": root_of(language.tag),
            "palette": choose_palette(language),
        },
        "extra": {"made_with": word_maker(language), "tempoleaf": describe_head(site)},
        "extra_css": STYLES,
        "extra_javascript": SCRIPTS,
        "plugins": ["search"],
        "validation": {"links": dict.fromkeys(LINK_RULES, "warn")},
        "nav": nav,
    }
    lines = (f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in settings.items())
    return "\n".join(("# Made by tempoleaf: pages and cards are finished.", *lines, ""))
