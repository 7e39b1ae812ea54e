"""Faults in the links of a finished site's pages and style sheets."""

from collections.abc import Iterator

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.finished.follow import has_other_scheme, judge_target
from builder.publishing.proof.finished.site import ERROR_PAGE, FinishedSite
from builder.publishing.proof.links import list_strange_addresses
from builder.publishing.proof.written_page import list_style_loads

_ADDRESS_CURE = "build again with the address that the site is to have"


def find_page_faults(site: FinishedSite) -> Iterator[Finding]:
    """Report links of pages that lead nowhere or astray, and pages that misname themselves."""
    for path, page in site.pages.items():
        for target in dict.fromkeys(pointer.target for pointer in page.pointers):
            file, anchor = site.lead(path, target)
            if file is not None and target != site.heads[path].canonical:
                finding = judge_target(site, Place(path), f'"{target}"', file, anchor)
                if finding:
                    yield finding
        for fact, cure in list_strange_addresses(page):
            yield rules.BROKEN_LINK.at(Place(path), fact, cure)
        yield from _find_head_faults(site, path)


def find_style_faults(site: FinishedSite) -> Iterator[Finding]:
    """Report fonts and pictures that a style sheet asks for and the site lacks."""
    for path in site.sizes:
        if path.endswith(".css"):
            text = (site.folder / path).read_text(encoding="utf-8", errors="replace")
            for target in dict.fromkeys(list_style_loads(text)):
                file, _ = site.lead(path, target)
                found = file and judge_target(site, Place(path), f'"{target}"', file, "")
                if found:
                    yield found


def _find_head_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    """Report a page that says it stands elsewhere, or tells machines of a page that is not there.

    The error page is shown at any address, so it has none of its own.
    """
    head, place = site.heads[path], Place(path)
    own = site.address_of(path)
    if head.canonical not in ("", own) and path.rpartition("/")[2] != ERROR_PAGE:
        said = f'says that it stands at "{head.canonical}"'
        fact = f'the page {said}, and its place in the folder means "{own}"'
        yield rules.WRONG_ADDRESS.at(place, fact, _ADDRESS_CURE)
    if not head.is_sound:
        fact = "the data for search engines is no JSON"
        yield rules.FILE_UNSOUND.at(place, fact, "build again")
    for url in head.named:
        file, anchor = site.lead(path, url)
        if has_other_scheme(site, url):
            fact = f'the data for machines names "{url}", which is not "{site.address}"'
            yield rules.WRONG_ADDRESS.at(place, fact, _ADDRESS_CURE)
        elif file is not None:
            shown = f'"{url}" in the data for machines'
            finding = judge_target(site, place, shown, file, anchor)
            if finding:
                yield finding
