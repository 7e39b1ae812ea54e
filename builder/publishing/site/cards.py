"""The cards, packs, posters and the book that pages of the site link to."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from builder.course.graph import find_circles
from builder.findings import Finding
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.charts import (
    print_air_chart,
    print_demand_chart,
    print_wall_chart,
)
from builder.publishing.pages.links import (
    BOOK,
    CARDS,
    COACH_CHARTS,
    Site,
    chart_file,
    wall_chart_file,
)
from builder.publishing.posters.run import paint_all
from builder.publishing.site.book import write_book
from builder.publishing.site.posters import list_posters
from builder.publishing.site.tracks import write_tracks
from builder.sums.paper import WALL_SHEETS_MM
from builder.work.cluster import open_workers
from builder.work.progress import SILENT, Progress
from builder.work.store import ContentStore

_CACHE = Path(".cache", "cards")
"""Where a project keeps finished cards between builds."""


def make_site_cards(
    site: Site, folder: Path, project: Path, *, cluster: str = "", progress: Progress = SILENT
) -> tuple[Finding, ...]:
    """Write client cards in every paper of a site, packs, charts, tracks, posters and the book.

    All lie where the site's pages expect them. ``cluster`` is where the workers are, if not here.
    """
    if not site.papers:
        return ()
    papers = tuple(name for name, _ in site.papers)
    order = CardOrder(papers=papers, packs=(site.course.settings.paper,))
    with open_workers(cluster) as pool:
        shelf = ContentStore(project / _CACHE)
        faults = make_cards(
            site.course, folder / CARDS, order, pool=pool, shelf=shelf, progress=progress
        )
        progress.tell("pictures and the book")
        pictures = paint_all(list_posters(site.course), pool=pool, shelf=shelf)
    cover = pictures.pop(BOOK)
    _write_files(folder, pictures)
    faults += write_book(site.course, cover, folder / BOOK)
    if not site.is_translation:
        write_tracks(site, folder)
    _write_files(folder, dict(_print_charts(site)))
    return faults


def _write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    for path, content in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(content)


def _print_charts(site: Site) -> Iterator[tuple[str, bytes]]:
    """Yield the path of each chart with its PDF; a map with circles can't be drawn."""
    course = site.course
    if not find_circles(course.graph):
        yield from (
            (wall_chart_file(sheet), print_wall_chart(course, sheet)) for sheet in WALL_SHEETS_MM
        )
    for name, sheets in {} if site.is_translation else COACH_CHARTS.items():
        yield from ((chart_file(name, sheet), _PRINTS[name](course, sheet)) for sheet in sheets)


_PRINTS = {"air": print_air_chart, "demand": print_demand_chart}
