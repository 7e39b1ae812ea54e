"""Proof that each address on a finished page leads to something, and nowhere by itself."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.address import split_address
from builder.publishing.proof.sources import Sources
from builder.publishing.proof.target import resolve
from builder.publishing.proof.written_page import Pointer, WrittenPage, list_style_loads

Pages = Mapping[str, WrittenPage]
_KNOWN_SCHEMES = frozenset({"", "http", "https", "mailto", "tel"})
_KEEP = "keep the file in the course, or link to it in words"


def find_broken_links(pages: Pages, folder: Path, sources: Sources) -> Iterator[Finding]:
    """Report links and files that aren't there, and anchors that a page lacks."""
    for path, page in pages.items():
        for pointer in page.distinct_pointers():
            file, anchor = resolve(path, pointer.target)
            # A part of a site is finished before the whole, whose proof looks at this too.
            if file is None or (sources.site.is_translation and file.startswith("../")):
                continue
            if not (folder / file).is_file():
                place, shown = _place(sources, path, pointer)
                fact = f'"{shown}" leads to no page or file'
                yield rules.BROKEN_LINK.at(place, fact, "mend or drop the link")
            elif anchor and file in pages and anchor not in pages[file].anchors:
                place, shown = _place(sources, path, pointer)
                fact = f'"{shown}" leads to no spot on that page'
                yield rules.BROKEN_ANCHOR.at(place, fact, "mend the part after #")


def find_strange_addresses(pages: Pages, sources: Sources) -> Iterator[Finding]:
    """Report what a page would load from elsewhere, and links that are none to a page."""
    for path, page in pages.items():
        for pointer in page.distinct_pointers():
            fault = _find_strangeness(pointer)
            if fault:
                place, shown = _place(sources, path, pointer)
                yield rules.BROKEN_LINK.at(place, fault[0].format(shown), fault[1])


def find_strange_styles(folder: Path, sources: Sources) -> Iterator[Finding]:
    """Report what a style sheet would load from elsewhere."""
    for path in sorted(folder.rglob("*.css")):
        name = path.relative_to(folder).as_posix()
        own = sources.project / sources.content / name
        place = Place(f"{sources.content}/{name}" if own.is_file() else name)
        for address in list_style_loads(path.read_text(encoding="utf-8", errors="replace")):
            if _is_elsewhere(address):
                fact = f'the style sheet would load "{address}" from elsewhere'
                yield rules.BROKEN_LINK.at(place, fact, _KEEP)


def list_strange_addresses(page: WrittenPage) -> Iterator[tuple[str, str]]:
    """Yield fact and cure of each address with which a page leads astray."""
    for pointer in page.distinct_pointers():
        fault = _find_strangeness(pointer)
        if fault:
            yield fault[0].format(pointer.target), fault[1]


def _is_elsewhere(address: str) -> bool:
    """Tell whether a page that loads an address would ask somebody else for it."""
    parts = split_address(address)
    return bool(parts.netloc) or parts.scheme not in {"", "data"}


def _find_strangeness(pointer: Pointer) -> tuple[str, str] | None:
    """Return fact and cure where an address leads astray; the fact has a gap for it."""
    if pointer.is_loaded and _is_elsewhere(pointer.target):
        return 'the page would load "{}" from elsewhere by itself', _KEEP
    if not pointer.is_loaded and split_address(pointer.target).scheme not in _KNOWN_SCHEMES:
        return '"{}" is no link to a page', "use https, mailto or tel"
    return None


def _place(sources: Sources, path: str, pointer: Pointer) -> tuple[Place, str]:
    """Return where the address was written, and as what; the settings write the frame."""
    written = sources.find(path, pointer.target)
    if written:
        return written
    file, anchor = resolve(path, pointer.target)
    if pointer.in_article:
        return sources.name(path), pointer.target
    shown = pointer.target if file is None else file + (anchor and f"#{anchor}")
    return sources.find_in_frame(file or shown), shown
