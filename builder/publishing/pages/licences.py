"""The page of licences: what a site is made of, and under which licence each part may be used."""

import json
from dataclasses import dataclass
from importlib.metadata import version

from builder.publishing.pages.links import Site
from builder.publishing.pages.templates import render_page, write_header
from builder.resources import find_templates


@dataclass(frozen=True, slots=True)
class ShippedPart:
    """Something in every site that isn't the course's own."""

    name: str
    licence: str
    """As SPDX names it."""
    where: str
    version: str = ""
    package: str = ""
    """The installed package that it comes with, which knows its version."""
    npm: str = ""
    """Its name among the packages that the theme's scripts are made of."""
    text: str = ""
    """The file of the site that holds the words of the licence."""

    @property
    def found_version(self) -> str:
        """Return the version; empty where nobody tells it."""
        return version(self.package) if self.package else self.version


def list_shipped_parts() -> tuple[ShippedPart, ...]:
    """Return every part of a site that came from elsewhere."""
    text = (find_templates() / "licences" / "parts.json").read_text(encoding="utf-8")
    return tuple(ShippedPart(**part) for part in json.loads(text))


def make_licences_page(site: Site) -> str:
    """Write the page of everything that stands in a site and isn't the course's own."""
    return render_page(
        "licences.md",
        site.language,
        header=write_header("Licences", "What this site is made of, and under which licences."),
        parts=list_shipped_parts(),
        caution=site.course.settings.caution,
    )
