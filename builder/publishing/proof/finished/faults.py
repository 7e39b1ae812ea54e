"""All that is wrong with a finished site, found without its sources and without the network."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import PurePosixPath

from builder import rules
from builder.findings import Finding, sort_findings
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.book_links import find_book_faults
from builder.publishing.proof.finished.lists import find_list_faults
from builder.publishing.proof.finished.page_links import find_page_faults, find_style_faults
from builder.publishing.proof.finished.pdf_links import find_pdf_faults
from builder.publishing.proof.finished.site import FinishedSite
from builder.publishing.views.wording import word_count
from builder.reading.addresses import Declared

_NAMED = 3
"""As many other places of a dead link as are named; the rest is counted."""


def find_finished_faults(site: FinishedSite, declared: Declared) -> tuple[Finding, ...]:
    """Follow every link of every file, and compare addresses with what the sources say."""
    return sort_findings(
        (
            *find_page_faults(site),
            *find_style_faults(site),
            *find_pdf_faults(site),
            *find_book_faults(site),
            *find_list_faults(site),
            *_find_other_addresses(site, declared),
        )
    )


def gather(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Put links to one and the same missing target into one finding, with the other places.

    A page that went is missed by the menu of every other page; it is still one fault. What cards
    miss is told apart from what pages do.
    """
    alike: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        kind = PurePosixPath(finding.place.path).suffix
        key = (finding.rule, finding.details, kind) if finding.details else (finding,)
        alike.setdefault(key, []).append(finding)
    return tuple(_tell_once(first, others) for first, *others in alike.values())


def _tell_once(first: Finding, others: list[Finding]) -> Finding:
    paths = [
        path
        for path in dict.fromkeys(each.place.path for each in others)
        if path != first.place.path
    ]
    if not paths:
        return first
    named = ", ".join(paths[:_NAMED])
    more = f"also in {len(paths)} other files: {named}{', …' if len(paths) > _NAMED else ''}"
    return replace(first, details=(*first.details, more))


def _find_other_addresses(site: FinishedSite, declared: Declared) -> Iterator[Finding]:
    """Report sources that say otherwise than the pages where the site stands."""
    for place, address in declared.addresses:
        if site.address and f"{address.rstrip('/')}/" != site.address:
            fact = f'"{address}" is set, and the finished pages stand at "{site.address}"'
            yield rules.WRONG_ADDRESS.at(place, fact, "set one address, and build again")
        elif not site.address and split_address(address).netloc:
            fact = f'"{address}" is set, and the finished home page gives no address'
            yield rules.WRONG_ADDRESS.at(place, fact, "build again")


def count_followed(site: FinishedSite) -> str:
    """Say in words what was read, for whoever wonders."""
    endings = (("page", ".html"), ("PDF", ".pdf"), ("book", ".epub"))
    counts = {name: sum(path.endswith(end) for path in site.sizes) for name, end in endings}
    return ", ".join(word_count(count, name) for name, count in counts.items() if count)
