"""The cards, packs, posters and the book that pages of the site link to."""

import os
from collections.abc import Iterator, Mapping
from functools import partial
from pathlib import Path

from builder.course.course import Course
from builder.course.graph import find_circles
from builder.findings import Finding
from builder.publishing.bare import bare_course
from builder.publishing.cards.course_cards import CardOrder, print_cards
from builder.publishing.cards.course_packs import bind_packs
from builder.publishing.cards.findings import tell_lost_pack
from builder.publishing.cards.keys import key_piece
from builder.publishing.cards.outline import Outliner
from builder.publishing.cards.run import Shelf, remember, write_file
from builder.publishing.charts import (
    print_chart,
    write_air_chart,
    write_demand_chart,
    write_wall_chart,
)
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import (
    BOOK,
    CARDS,
    COACH_CHARTS,
    Site,
    chart_file,
    wall_chart_file,
)
from builder.publishing.posters.run import paint_all
from builder.publishing.site.book import EPOCH, write_book
from builder.publishing.site.posters import list_posters
from builder.publishing.site.tracks import write_tracks
from builder.sums.paper import WALL_SHEETS_MM
from builder.work.bundle import open_bundle
from builder.work.cluster import open_workers
from builder.work.digest import spell
from builder.work.progress import SILENT, Progress
from builder.work.store import ContentStore

_CHARTS = {"air": write_air_chart, "demand": write_demand_chart, "map": write_wall_chart}
_CACHE = Path(".cache", "cards")
"""Where a project keeps finished cards between builds."""


def make_site_cards(
    excerpts: Excerpts,
    folder: Path,
    project: Path,
    *,
    cluster: str = "",
    progress: Progress = SILENT,
) -> tuple[Finding, ...]:
    """Write client cards in every paper of a site, packs, charts, tracks, posters and the book.

    All lie where the site's pages expect them. ``cluster`` is where the workers are, if not here.
    """
    site = excerpts.site
    if not site.papers:
        return ()
    papers = tuple(name for name, _ in site.papers)
    order = CardOrder(papers=papers, packs=(site.course.settings.paper,))
    outliner = Outliner(site.course)
    with open_workers(cluster) as pool:
        shelf = ContentStore(project / _CACHE)
        printed = print_cards(
            site.course,
            folder / CARDS,
            order,
            pool=pool,
            shelf=shelf,
            progress=progress,
            outliner=outliner,
        )
        progress.tell("pictures and the book")
        painted = paint_all(list_posters(site.course, outliner), pool=pool, shelf=shelf)
        with bind_packs(printed.runs, pool, shelf) as lost:
            faults = _write_others(excerpts, folder, painted.pictures, shelf)
    shelf.sweep()
    lost_packs = (tell_lost_pack(site.course, each) for each in lost)
    return (*printed.faults, *painted.faults, *lost_packs, *faults)


def _write_others(
    excerpts: Excerpts, folder: Path, pictures: dict[str, bytes], shelf: ContentStore
) -> tuple[Finding, ...]:
    """Write pictures, tracks, charts and the book if its cover is there; return its faults."""
    site = excerpts.site
    cover = pictures.pop(BOOK, None)
    _write_files(folder, pictures)
    told = spell(bare_course(site.course))
    faults = _write_book(excerpts, cover, folder / BOOK, told, shelf) if cover else ()
    if not site.is_translation:
        write_tracks(site, folder, shelf)
    _write_files(folder, dict(_print_charts(site, told, shelf)))
    return faults


def _write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    for path, content in files.items():
        write_file(folder / path, content)


def _write_book(
    excerpts: Excerpts, cover: bytes, path: Path, told: str, shelf: ContentStore
) -> tuple[Finding, ...]:
    """Write the book; the cache has only books without a fault."""
    key = key_piece("book", told, cover.hex(), os.environ.get(EPOCH, ""))
    piece = shelf.get(key)
    if piece is not None:
        write_file(path, piece)
        return ()
    parts = open_bundle(shelf, "book", excerpts.site.course.settings.language)
    faults = write_book(excerpts, cover, path, parts)
    parts.save()
    if not faults:
        shelf.put(key, path.read_bytes())
    return faults


def _print_charts(site: Site, told: str, shelf: Shelf) -> Iterator[tuple[str, bytes]]:
    """Yield the path of each chart with its PDF; a map with circles can't be drawn."""
    wanted = [
        (chart_file(name, sheet), name, sheet)
        for name, sheets in ({} if site.is_translation else COACH_CHARTS).items()
        for sheet in sheets
    ]
    if not find_circles(site.course.graph):
        wanted += [(wall_chart_file(sheet), "map", sheet) for sheet in WALL_SHEETS_MM]
    for path, name, sheet in wanted:
        yield path, make_chart(site.course, (name, sheet), told, shelf)


def make_chart(course: Course, wanted: tuple[str, str], told: str, shelf: Shelf) -> bytes:
    """Return a chart, drawn only where the course is another one, printed only where it is.

    Under the course stands the key of what was drawn: most changes of a course change no chart.
    """
    name, sheet = wanted
    key = key_piece("drawn chart", name, sheet, told)
    drawn = (shelf.get(key) or b"").decode()
    piece = shelf.get(drawn) if drawn else None
    if piece is None:
        chart = _CHARTS[name](course, sheet)
        drawn = key_piece("chart", chart.html, chart.style)
        piece = remember(shelf, drawn, partial(print_chart, chart))
        shelf.put(key, drawn.encode())
    return piece
