"""The site as plain Markdown with ready host settings, for a host that knows no plugin of ours."""

import shutil
from enum import StrEnum
from pathlib import Path

from builder.publishing.pages.links import Site
from builder.publishing.site.edition import Edition
from builder.publishing.site.files import list_own_files
from builder.publishing.site.host import DOCS, THEME, write_settings
from builder.publishing.site.plain_links import link_from_source
from builder.resources import find_templates

SETTINGS = "mkdocs.yml"


class Host(StrEnum):
    """A host that knows no plugin of ours, by how it takes links in a page's HTML."""

    MKDOCS = "mkdocs"
    """As they are; ProperDocs does the same."""
    ZENSICAL = "zensical"
    """As seen from the page's source, as those of Markdown."""


def write_plain(
    site: Site, edition: Edition, content: Path, folder: Path, host: Host = Host.MKDOCS
) -> None:
    """Write pages, the studio's own files, the theme's parts and the settings into a folder."""
    docs = folder / DOCS
    for name, own in list_own_files(content, site.course.settings):
        _write(docs / name, own)
    for name, text in edition.files.items():
        _write(docs / name, text if isinstance(text, bytes) else _word(name, text, host).encode())
    shutil.copytree(find_templates() / "theme", folder / THEME)
    settings = write_settings(site, edition.nav)
    (folder / SETTINGS).write_text(settings, encoding="utf-8")


def _word(name: str, text: str, host: Host) -> str:
    """Return a page as a host takes it."""
    return link_from_source(name, text) if host is Host.ZENSICAL else text


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
