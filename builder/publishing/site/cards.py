"""The cards and packs that pages of the site link to."""

from pathlib import Path

from builder.findings import Finding
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.pages.links import CARDS, Site
from builder.work.pool import open_pool
from builder.work.store import ContentStore

_CACHE = Path(".cache", "cards")
"""Where a project keeps finished cards between builds."""


def make_site_cards(site: Site, folder: Path, project: Path) -> tuple[Finding, ...]:
    """Write client cards in every paper of a site, and the packs, where its pages expect them."""
    if not site.papers:
        return ()
    papers = tuple(name for name, _ in site.papers)
    order = CardOrder(papers=papers, packs=(site.course.settings.paper,))
    with open_pool() as pool:
        shelf = ContentStore(project / _CACHE)
        return make_cards(site.course, folder / CARDS, order, pool=pool, shelf=shelf)
