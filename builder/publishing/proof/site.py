"""Proof of a finished site: every link leads somewhere and no lesson lost its words."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from builder import rules
from builder.findings import Finding, sort_findings
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.publishing.pages.links import SAFETY, Site, lesson_page
from builder.publishing.proof.lesson_pages import (
    find_lost_caution,
    find_lost_notices,
    list_lost_words,
    tell_lost_words,
)
from builder.publishing.proof.site_links import (
    find_broken_links,
    find_strange_addresses,
    find_strange_styles,
)
from builder.publishing.proof.site_page import SitePage, read_site_pages
from builder.publishing.proof.sources import Sources
from builder.publishing.views.lesson_in_words import lesson_path
from builder.work.digest import digest
from builder.work.folder_files import FolderFiles
from builder.work.share import share

_ERROR_PAGE = "404.html"
"""Served for any address, so its links begin at the host's root; nobody knows it here."""
_NO_PAGE = SitePage("", "", frozenset(), (), frozenset(), is_strange=False, letters="")
"""What is read where a page is missing."""


def find_site_faults(
    sources: Sources,
    written: FolderFiles,
    *,
    for_disk: bool = False,
    shelf: Shelf | None = None,
    excerpts: Excerpts | None = None,
) -> tuple[Finding, ...]:
    """Read every page of a finished site and return what is broken or missing.

    Codes of cards lead to the web, and not to a copy for a disk. On the ``shelf`` lies what was
    found on the same pages before. Whoever has the site's ``excerpts`` brings them along.
    """
    site = sources.site
    others = tuple(f"{tag}/" for tag in site.course.translations)
    folder, files = written.folder, frozenset(written.list_names())
    paths = sorted(path for path in files if path.endswith(".html"))
    paths = [path for path in paths if PurePosixPath(path).name != _ERROR_PAGE]
    every = read_site_pages(written, paths, shelf)
    pages = {path: page for path, page in every.items() if not path.startswith(others)}
    safety = pages.get(site.file(SAFETY))
    return sort_findings(
        (
            *find_broken_links(every, folder, files, sources),
            *find_strange_addresses(pages, folder, sources),
            *find_strange_styles(folder, files, sources),
            *_find_unlinked_lessons(site, pages),
            *(() if for_disk else _find_missing_codes(site, folder)),
            *_find_lost_words(excerpts or Excerpts(site), pages, shelf),
            *find_lost_caution(sources, {path: page.letters for path, page in pages.items()}),
            *(find_lost_notices(site, safety.letters) if safety else ()),
        )
    )


def _find_lost_words(
    excerpts: Excerpts, pages: Mapping[str, SitePage], shelf: Shelf | None
) -> Iterator[Finding]:
    """Report what pages lack of their lessons; judged anew where either has changed."""
    site = excerpts.site
    lost: dict[str, str] = {}
    missing: list[tuple[str, Excerpt, SitePage]] = []
    for lesson in site.course.lessons:
        page = pages.get(site.file(lesson_page(lesson)), _NO_PAGE)
        excerpt, key = excerpts.cut(lesson)
        key = digest("lost words", key, page.digest)
        piece = shelf.get(key) if shelf else None
        if piece is None:
            missing.append((key, excerpt, page))
        else:
            lost[lesson.id] = piece.decode()

    judged = share(_judge, [(excerpt, page) for _, excerpt, page in missing])
    for (key, excerpt, _), text in zip(missing, judged, strict=True):
        lost[excerpt.lesson.id] = text
        if shelf:
            shelf.put(key, text.encode())
    for lesson in site.course.lessons:
        yield from tell_lost_words(lesson, json.loads(lost[lesson.id]))


def _judge(wanted: tuple[Excerpt, SitePage]) -> str:
    """Return what a page lacks of its lesson as JSON."""
    excerpt, page = wanted
    course = excerpt.make_site().course
    return json.dumps(list_lost_words(course, excerpt.lesson, page.letters))


def _find_unlinked_lessons(site: Site, pages: Mapping[str, SitePage]) -> Iterator[Finding]:
    """Report lessons that no other page's own text links to; navigation alone doesn't count."""
    linked = {file for page in pages.values() for file in page.named}
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
