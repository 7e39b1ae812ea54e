"""A page as the host's template writes it, before the host asks for it. Part of the shell."""

from collections.abc import Sequence
from dataclasses import dataclass

from jinja2 import Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

_TEMPLATE = "main.html"
"""What the host takes for a page that names no other."""


@dataclass(frozen=True, slots=True)
class Desk:
    """All that the host has at hand when it writes pages."""

    nav: Navigation
    files: Files
    config: MkDocsConfig
    environment: Environment
    documents: Sequence[File]
    """The files of pages; to look for them once for each page would take ever longer."""

    def list_pages(self) -> list[Page]:
        """Return the pages that the host is going to write, in its order."""
        return [file.page for file in self.documents if file.page]

    def write(self, page: Page) -> str:
        """Return a page's HTML, as plugins and template make it; the page is as it was then."""
        content = page.content
        page.active = True
        try:
            context = get_context(self.nav, self.documents, self.config, page)
            template = self.environment.get_template(page.meta.get("template", _TEMPLATE))
            context = self.config.plugins.on_page_context(
                context, page=page, config=self.config, nav=self.nav
            )
            return template.render(context)
        finally:
            page.active = False
            page.content = content
