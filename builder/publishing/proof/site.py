"""Proof of a finished site: every link leads somewhere and no lesson lost its words."""

import posixpath
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from urllib.parse import unquote, urlsplit

from builder import rules
from builder.findings import Finding, Place, sort_findings
from builder.publishing.pages.links import SAFETY, Site, lesson_page
from builder.publishing.proof.lesson_pages import find_lost_notices, find_lost_words
from builder.publishing.proof.written_page import WrittenPage, read_written_page
from builder.publishing.views.lesson_in_words import lesson_path

Pages = Mapping[str, WrittenPage]
_ERROR_PAGE = "404.html"
"""Served for any address, so its links begin at the host's root; nobody knows it here."""

_KNOWN_SCHEMES = frozenset({"", "http", "https", "mailto", "tel"})


def find_site_faults(
    site: Site, folder: Path, written: Iterable[str], content: str
) -> tuple[Finding, ...]:
    """Read every page of a finished site and return what is broken or missing."""
    paths = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.html"))
    pages = {path: read_written_page(folder, path) for path in paths if path != _ERROR_PAGE}
    sources = _find_sources(site, written, content)
    findings = [
        *_find_broken_links(pages, folder, sources),
        *_find_strange_addresses(pages, sources),
        *_find_unlinked_lessons(site, pages),
        *_find_missing_codes(site, folder),
    ]
    for lesson in site.course.lessons:
        page = pages.get(site.file(lesson_page(lesson)))
        findings += find_lost_words(site.course, lesson, page.text if page else "")
    safety = pages.get(site.file(SAFETY))
    if safety:
        findings += find_lost_notices(site.course, safety.text)
    return sort_findings(findings)


def _find_sources(site: Site, written: Iterable[str], content: str) -> dict[str, str]:
    """Return the file that an author wrote for each file of the site, where there is one."""
    lessons = {site.file(lesson_page(lesson)): lesson.path for lesson in site.course.lessons}
    return {**{site.file(path): f"{content}/{path}" for path in written}, **lessons}


def _find_broken_links(pages: Pages, folder: Path, sources: Mapping[str, str]) -> Iterator[Finding]:
    """Report links and files that aren't there, and anchors that a page lacks."""
    for path, page in pages.items():
        place = Place(sources.get(path, path))
        for target in sorted({pointer.target for pointer in page.pointers}):
            file, anchor = _resolve(path, target)
            if file is None:
                continue
            if not (folder / file).is_file():
                yield rules.BROKEN_LINK.at(
                    place, f'"{target}" leads to no page or file', "mend or drop the link"
                )
            elif anchor and file in pages and anchor not in pages[file].anchors:
                yield rules.BROKEN_ANCHOR.at(
                    place, f'"{target}" leads to no spot on that page', "mend the part after #"
                )


def _find_strange_addresses(pages: Pages, sources: Mapping[str, str]) -> Iterator[Finding]:
    """Report what a page would load from elsewhere, and links that are none to a page."""
    for path, page in pages.items():
        place = Place(sources.get(path, path))
        for pointer in sorted(set(page.pointers), key=lambda pointer: pointer.target):
            parts = urlsplit(pointer.target)
            if pointer.is_loaded and (parts.netloc or parts.scheme not in {"", "data"}):
                yield rules.BROKEN_LINK.at(
                    place,
                    f'the page would load "{pointer.target}" from elsewhere by itself',
                    "keep the file in the course, or link to it in words",
                )
            elif not pointer.is_loaded and parts.scheme not in _KNOWN_SCHEMES:
                yield rules.BROKEN_LINK.at(
                    place, f'"{pointer.target}" is no link to a page', "use https, mailto or tel"
                )


def _resolve(page: str, target: str) -> tuple[str | None, str]:
    """Return the file in the site that a page's link means, and the anchor; None if outside."""
    parts = urlsplit(target)
    if parts.scheme or parts.netloc:
        return None, ""
    address = unquote(parts.path)
    start = "" if address.startswith("/") else posixpath.dirname(page)
    file = posixpath.normpath(posixpath.join(start, address.lstrip("/"))) if address else page
    if address.endswith(("/", "/..", "/.")) or address in (".", ".."):
        file = posixpath.normpath(posixpath.join(file, "index.html"))
    return file, unquote(parts.fragment)


def _find_unlinked_lessons(site: Site, pages: Pages) -> Iterator[Finding]:
    """Report lessons that no other page's own text links to; navigation alone doesn't count."""
    linked = {
        _resolve(path, pointer.target)[0]
        for path, page in pages.items()
        for pointer in page.pointers
        if pointer.in_article and _resolve(path, pointer.target)[0] != path
    }
    for lesson in site.course.lessons:
        if site.file(lesson_page(lesson)) not in linked:
            yield rules.UNLINKED_LESSON.at(
                lesson.at("title"), "no page links to this lesson", "name it on another page"
            )


def _find_missing_codes(site: Site, folder: Path) -> Iterator[Finding]:
    """Report lessons whose card sends people to a page that isn't there."""
    if not site.course.settings.address or not site.papers:
        return
    for lesson in site.course.lessons:
        if not (folder / lesson_path(lesson) / "index.html").is_file():
            yield rules.QR_TARGET_MISSING.at(
                lesson.at("title"),
                f'the card\'s code leads to "{lesson_path(lesson)}", which is no page of the site',
                "build the site with use_directory_urls: true",
            )
