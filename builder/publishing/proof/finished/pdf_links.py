"""Faults in the links of a finished site's PDFs, and in the codes on its cards."""

from collections.abc import Iterator

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.pages.links import CARDS
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.follow import has_other_scheme, judge_target
from builder.publishing.proof.finished.pdf_reading import (
    PdfLink,
    PdfUnsoundError,
    read_pdf_links,
)
from builder.publishing.proof.finished.site import FinishedSite

_OPENED = frozenset({"http", "https", "mailto", "tel"})
_PRINT_AGAIN = "build again with the address that the site has"


def find_pdf_faults(site: FinishedSite) -> Iterator[Finding]:
    """Report links of PDFs that lead nowhere, and codes of cards that lead elsewhere."""
    for path in site.sizes:
        if path.lower().endswith(".pdf"):
            yield from _find_faults(site, path)


def _find_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    place = Place(path)
    try:
        reading = read_pdf_links(site.folder / path)
    except PdfUnsoundError:
        fact = "this PDF can't be opened without repair or a password"
        yield rules.FILE_UNSOUND.at(place, fact, "make it again")
        return
    for link in reading.lost:
        fact = f'{_spot(link)} leads to "{link.target}", which the PDF doesn\'t have'
        yield rules.BROKEN_ANCHOR.at(place, fact, "build again")
    for link in reading.files:
        fact = f'{_spot(link)} opens the file "{link.target}" on the reader\'s own disk'
        yield rules.BROKEN_LINK.at(place, fact, "link to an address on the web")
    for link in reading.web:
        yield from _judge_web(site, place, link)
    if CARDS in path.split("/")[:-1]:
        for url in reading.pictured:
            yield from _judge_code(site, place, url)


def _judge_web(site: FinishedSite, place: Place, link: PdfLink) -> Iterator[Finding]:
    """Judge an address in a PDF; it must be whole, since people keep PDFs anywhere."""
    scheme = split_address(link.target).scheme.lower()
    if scheme not in _OPENED:
        fact = f'{_spot(link)} leads to "{link.target}", which is no whole address'
        yield rules.BROKEN_LINK.at(place, fact, "write it whole, with https, mailto or tel")
    elif has_other_scheme(site, link.target):
        fact = f'{_spot(link)} leads to "{link.target}", which is not "{site.address}"'
        yield rules.WRONG_ADDRESS.at(place, fact, _PRINT_AGAIN)
    else:
        yield from _judge_own(site, place, f'{_spot(link)} to "{link.target}"', link.target)


def _judge_code(site: FinishedSite, place: Place, url: str) -> Iterator[Finding]:
    """Judge where a card's QR code leads: to a page of this site and nowhere else."""
    if site.address and (site.enter(url) is None or has_other_scheme(site, url)):
        fact = f'the QR code leads to "{url}", and the site stands at "{site.address}"'
        yield rules.WRONG_ADDRESS.at(place, fact, _PRINT_AGAIN)
    else:
        yield from _judge_own(site, place, f'the QR code to "{url}"', url)


def _judge_own(site: FinishedSite, place: Place, shown: str, url: str) -> Iterator[Finding]:
    within = site.enter(url)
    file, anchor = site.lead("", url)
    if within is not None and file is not None:
        finding = judge_target(site, place, shown, file, anchor)
        if finding:
            yield finding


def _spot(link: PdfLink) -> str:
    return f"a link on page {link.page}" if link.page else "an entry of the outline"
