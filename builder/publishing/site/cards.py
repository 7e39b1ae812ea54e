"""The cards and packs that pages of the site link to."""

from pathlib import Path

from builder.course.graph import find_circles
from builder.findings import Finding
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.pages.links import CARDS, Site, wall_chart_file
from builder.publishing.wall_chart import print_wall_chart
from builder.sums.paper import WALL_SHEETS_MM
from builder.work.pool import open_pool
from builder.work.store import ContentStore

_CACHE = Path(".cache", "cards")
"""Where a project keeps finished cards between builds."""


def make_site_cards(site: Site, folder: Path, project: Path) -> tuple[Finding, ...]:
    """Write client cards in every paper of a site, the packs and the wall chart.

    All lie where the site's pages expect them.
    """
    if not site.papers:
        return ()
    papers = tuple(name for name, _ in site.papers)
    order = CardOrder(papers=papers, packs=(site.course.settings.paper,))
    with open_pool() as pool:
        shelf = ContentStore(project / _CACHE)
        faults = make_cards(site.course, folder / CARDS, order, pool=pool, shelf=shelf)
    _write_wall_charts(site, folder)
    return faults


def _write_wall_charts(site: Site, folder: Path) -> None:
    if find_circles(site.course.graph):
        return
    for sheet in WALL_SHEETS_MM:
        path = folder / wall_chart_file(sheet)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(print_wall_chart(site.course, sheet))
