"""Where a link of a finished file leads, judged alike for pages, PDFs and books."""

import re

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.site import FinishedSite

_CARD_CODE = re.compile(r"card=[0-9A-Za-z]{1,12}")
"""What a card's QR code brings along; the page's own script reads it."""
_BUILD_AGAIN = "mend or drop the link in the course and build again"


def judge_target(
    site: FinishedSite, place: Place, shown: str, file: str, anchor: str
) -> Finding | None:
    """Return the fault of a link that means a file of the site, or nothing."""
    target = f"target: {file}"
    if file not in site.sizes:
        twin = site.find_twin(file)
        if twin:
            fact = f'{shown} leads nowhere, for the file is called "{twin}"'
            return rules.BROKEN_LINK.at(place, fact, "write it with the same capitals", target)
        fact = f"{shown} leads to no page or file"
        return rules.BROKEN_LINK.at(place, fact, _BUILD_AGAIN, target)
    if file in site.pages and not _is_spot(site, file, anchor):
        spot = f"{target}#{anchor}"
        fact = f'{shown} leads to no spot on "{file}"'
        return rules.BROKEN_ANCHOR.at(place, fact, "mend the part after # and build again", spot)
    return None


def has_other_scheme(site: FinishedSite, url: str) -> bool:
    """Tell whether an address of this site has http for https, or the other way round."""
    scheme = split_address(url).scheme
    ours = split_address(site.address).scheme
    return site.enter(url) is not None and scheme not in ("", ours)


def _is_spot(site: FinishedSite, file: str, anchor: str) -> bool:
    """Tell whether a page has an anchor; the top needs none (HTML Living Standard)."""
    return (
        not anchor
        or anchor.lower() == "top"
        or anchor in site.pages[file].anchors
        or bool(_CARD_CODE.fullmatch(anchor))
    )
