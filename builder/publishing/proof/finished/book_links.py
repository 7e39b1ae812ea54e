"""Faults in the links of a finished site's EPUBs: their lists, pages, pictures and navigation."""

import posixpath
from collections.abc import Iterator, Mapping
from urllib.parse import unquote

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.book_reading import (
    CONTAINER,
    MIMETYPE,
    Book,
    BookError,
    list_elements,
    read_book,
)
from builder.publishing.proof.finished.follow import has_other_scheme, judge_target
from builder.publishing.proof.finished.site import FinishedSite
from builder.publishing.proof.links import list_strange_addresses
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import (
    WrittenPage,
    list_style_loads,
    parse_written_page,
)

_MAKE_AGAIN = "build again; if it stays so, the book is made wrongly"
_PAGES = (".xhtml", ".html", ".htm", ".svg")


def find_book_faults(site: FinishedSite) -> Iterator[Finding]:
    """Report what an EPUB of a site names and lacks, and its links to nowhere."""
    for path in site.sizes:
        if path.lower().endswith(".epub"):
            try:
                book = read_book(site.folder / path)
            except BookError as error:
                fact = f"this EPUB can't be opened ({error})"
                yield rules.FILE_UNSOUND.at(Place(path), fact, _MAKE_AGAIN)
                continue
            yield from _find_list_faults(path, book)
            yield from _find_link_faults(site, path, book)


def _find_list_faults(path: str, book: Book) -> Iterator[Finding]:
    """Judge the way from the container to the package, its manifest, spine and navigation."""
    if not book.has_type_first:
        fact = f'its first part is not "{MIMETYPE}", unpacked, as readers look for it'
        yield rules.FILE_UNSOUND.at(Place(path), fact, _MAKE_AGAIN)
    packages = [
        values.get("full-path", "")
        for name, values in list_elements(book.texts.get(CONTAINER, ""))
        if name == "rootfile"
    ]
    if not packages:
        fact = f'"{CONTAINER}" names no package'
        yield rules.FILE_UNSOUND.at(Place(path), fact, _MAKE_AGAIN)
    for package in packages:
        if package in book.texts:
            yield from _find_package_faults(path, book, package)
        else:
            fact = f'"{CONTAINER}" names "{package}", which the book lacks'
            yield rules.BROKEN_LINK.at(Place(path), fact, _MAKE_AGAIN)


def _find_package_faults(path: str, book: Book, package: str) -> Iterator[Finding]:
    place = Place(f"{path}/{package}")
    elements = list_elements(book.texts[package])
    items = {values.get("id", ""): values for name, values in elements if name == "item"}
    files = {
        posixpath.normpath(
            posixpath.join(posixpath.dirname(package), unquote(item.get("href", "")))
        )
        for item in items.values()
        if not split_address(item.get("href", "")).scheme
    }
    for file in sorted(files - set(book.names)):
        fact = f'the manifest lists "{file}", which the book lacks'
        yield rules.BROKEN_LINK.at(place, fact, _MAKE_AGAIN)
    for file in book.names:
        if file not in {*files, package, MIMETYPE} and not file.startswith("META-INF/"):
            fact = f'the book has "{file}", which the manifest doesn\'t list'
            yield rules.STALE_LIST.at(place, fact, _MAKE_AGAIN)
    spine = [values.get("idref", "") for name, values in elements if name == "itemref"]
    for name in spine:
        if name not in items:
            fact = f'the reading order names "{name}", which the manifest doesn\'t list'
            yield rules.BROKEN_LINK.at(place, fact, _MAKE_AGAIN)
    if not spine:
        yield rules.FILE_UNSOUND.at(place, "the book has no reading order", _MAKE_AGAIN)
    if not any("nav" in item.get("properties", "").split() for item in items.values()):
        yield rules.FILE_UNSOUND.at(place, "the book has no navigation", _MAKE_AGAIN)


def _find_link_faults(site: FinishedSite, path: str, book: Book) -> Iterator[Finding]:
    pages = {
        name: parse_written_page(name, text.replace("xlink:href", "href"))
        for name, text in book.texts.items()
        if name.lower().endswith(_PAGES)
    }
    for name, page in pages.items():
        place = Place(f"{path}/{name}")
        for target in dict.fromkeys(pointer.target for pointer in page.pointers):
            yield from _judge(site, book, pages, place, target)
        for fact, cure in list_strange_addresses(page):
            yield rules.BROKEN_LINK.at(place, fact, cure)
    for name, text in book.texts.items():
        place = Place(f"{path}/{name}")
        targets: list[str] = []
        if name.lower().endswith(".css"):
            targets = list(list_style_loads(text))
        elif name.lower().endswith(".ncx"):
            targets = [
                values.get("src", "") for tag, values in list_elements(text) if tag == "content"
            ]
        for target in dict.fromkeys(targets):
            yield from _judge(site, book, pages, place, target)


def _judge(
    site: FinishedSite, book: Book, pages: Mapping[str, WrittenPage], place: Place, target: str
) -> Iterator[Finding]:
    """Judge a link of a part; one with the site's whole address must lead to a page of it."""
    part = place.path.partition(".epub/")[2]
    file, anchor = resolve(part, target)
    if file is None:
        if has_other_scheme(site, target):
            fact = f'"{target}" is not "{site.address}"'
            yield rules.WRONG_ADDRESS.at(place, fact, "build again with the site's address")
        elif site.enter(target) is not None:
            found, spot = site.lead("", target)
            finding = found and judge_target(site, place, f'"{target}"', found, spot)
            if finding:
                yield finding
    elif file not in book.names:
        fact = f'"{target}" leads to no part of the book'
        yield rules.BROKEN_LINK.at(place, fact, _MAKE_AGAIN)
    elif anchor and file in pages and anchor not in pages[file].anchors:
        fact = f'"{target}" leads to no spot on "{file}"'
        yield rules.BROKEN_ANCHOR.at(place, fact, _MAKE_AGAIN)
