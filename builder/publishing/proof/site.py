"""Proof of a finished site: every link leads somewhere and no lesson lost its words."""

from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from builder import rules
from builder.findings import Finding, sort_findings
from builder.publishing.pages.links import SAFETY, Site, lesson_page
from builder.publishing.proof.lesson_pages import (
    find_lost_caution,
    find_lost_notices,
    find_lost_words,
)
from builder.publishing.proof.links import (
    find_broken_links,
    find_strange_addresses,
    find_strange_styles,
)
from builder.publishing.proof.sources import Sources
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import WrittenPage, read_written_page
from builder.publishing.views.lesson_in_words import lesson_path

_ERROR_PAGE = "404.html"
"""Served for any address, so its links begin at the host's root; nobody knows it here."""


def find_site_faults(
    sources: Sources, folder: Path, *, for_disk: bool = False
) -> tuple[Finding, ...]:
    """Read every page of a finished site and return what is broken or missing.

    Codes of cards lead to the web, and not to a copy for a disk.
    """
    site = sources.site
    others = tuple(f"{tag}/" for tag in site.course.translations)
    paths = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.html"))
    paths = [path for path in paths if PurePosixPath(path).name != _ERROR_PAGE]
    every = {path: read_written_page(folder, path) for path in paths}
    pages = {path: page for path, page in every.items() if not path.startswith(others)}
    findings = [
        *find_broken_links(every, folder, sources),
        *find_strange_addresses(pages, sources),
        *find_strange_styles(folder, sources),
        *_find_unlinked_lessons(site, pages),
        *(() if for_disk else _find_missing_codes(site, folder)),
    ]
    for lesson in site.course.lessons:
        page = pages.get(site.file(lesson_page(lesson)))
        findings += find_lost_words(site.course, lesson, page.text if page else "")
    findings += find_lost_caution(sources, {path: page.text for path, page in pages.items()})
    safety = pages.get(site.file(SAFETY))
    if safety:
        findings += find_lost_notices(site, safety.text)
    return sort_findings(findings)


def _find_unlinked_lessons(site: Site, pages: Mapping[str, WrittenPage]) -> Iterator[Finding]:
    """Report lessons that no other page's own text links to; navigation alone doesn't count."""
    linked = {
        resolve(path, pointer.target)[0]
        for path, page in pages.items()
        for pointer in page.pointers
        if pointer.in_article and resolve(path, pointer.target)[0] != path
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
