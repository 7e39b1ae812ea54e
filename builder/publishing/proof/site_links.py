"""Faults of a finished site's addresses: what leads nowhere, and what leads astray."""

from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.links import ELSEWHERE_CURE, find_strangeness, is_elsewhere
from builder.publishing.proof.site_page import PageLink, SitePage, read_links
from builder.publishing.proof.sources import Sources
from builder.publishing.proof.written_page import list_style_loads

Pages = Mapping[str, SitePage]


def find_broken_links(
    pages: Pages, folder: Path, files: Collection[str], sources: Sources
) -> Iterator[Finding]:
    """Report links and files that aren't there, and anchors that a page lacks.

    ``files`` are those of the site's folder, which a link may well lead out of.
    """
    for path, page in pages.items():
        for link in _list_suspects(pages, page, folder, files):
            file, anchor = link.file, link.anchor
            # A part of a site is finished before the whole, whose proof looks at this too.
            if file is None or (sources.site.is_translation and file.startswith("../")):
                continue
            if not (folder / file).is_file():
                place, shown = _place(sources, path, link)
                fact = f'"{shown}" leads to no page or file'
                yield rules.BROKEN_LINK.at(place, fact, "mend or drop the link")
            elif not _has_spot(pages, file, anchor):
                place, shown = _place(sources, path, link)
                fact = f'"{shown}" leads to no spot on that page'
                yield rules.BROKEN_ANCHOR.at(place, fact, "mend the part after #")


def find_strange_addresses(pages: Pages, folder: Path, sources: Sources) -> Iterator[Finding]:
    """Report what a page would load from elsewhere, and links that are none to a page."""
    for path, page in pages.items():
        for link in read_links(folder, path) if page.is_strange else ():
            fault = find_strangeness(link.pointer)
            if fault:
                place, shown = _place(sources, path, link)
                yield rules.BROKEN_LINK.at(place, fault[0].format(shown), fault[1])


def find_strange_styles(
    folder: Path, files: Collection[str], sources: Sources
) -> Iterator[Finding]:
    """Report what a style sheet would load from elsewhere."""
    for name in sorted(file for file in files if file.endswith(".css")):
        own = sources.project / sources.content / name
        place = Place(f"{sources.content}/{name}" if own.is_file() else name)
        style = (folder / name).read_text(encoding="utf-8", errors="replace")
        for address in list_style_loads(style):
            if is_elsewhere(address):
                fact = f'the style sheet would load "{address}" from elsewhere'
                yield rules.BROKEN_LINK.at(place, fact, ELSEWHERE_CURE)


def _list_suspects(
    pages: Pages, page: SitePage, folder: Path, files: Collection[str]
) -> tuple[PageLink, ...]:
    """Return the links of a page where any of them may lead nowhere; none for most pages."""
    is_sound = all(file in files and _has_spot(pages, file, anchor) for file, anchor in page.aims)
    return () if is_sound else read_links(folder, page.path)


def _has_spot(pages: Pages, file: str, anchor: str) -> bool:
    """Tell whether a page has an anchor; of other files nobody knows."""
    return not anchor or file not in pages or anchor in pages[file].anchors


def _place(sources: Sources, path: str, link: PageLink) -> tuple[Place, str]:
    """Return where the address was written, and as what; the settings write the frame."""
    target, file, anchor = link.pointer.target, link.file, link.anchor
    written = sources.find(path, target)
    if written:
        return written
    if link.pointer.in_article:
        return sources.name(path), target
    shown = target if file is None else file + (anchor and f"#{anchor}")
    return sources.find_in_frame(file or shown), shown
