"""Addresses with which a finished page leads astray."""

from collections.abc import Iterator

from builder.publishing.proof.address import split_address
from builder.publishing.proof.written_page import Pointer, WrittenPage

_KNOWN_SCHEMES = frozenset({"", "http", "https", "mailto", "tel"})
ELSEWHERE_CURE = "keep the file in the course, or link to it in words"


def list_strange_addresses(page: WrittenPage) -> Iterator[tuple[str, str]]:
    """Yield fact and cure of each address with which a page leads astray."""
    for pointer in page.distinct_pointers():
        fault = find_strangeness(pointer)
        if fault:
            yield fault[0].format(pointer.target), fault[1]


def is_elsewhere(address: str) -> bool:
    """Tell whether a page that loads an address would ask somebody else for it."""
    parts = split_address(address)
    return bool(parts.netloc) or parts.scheme not in {"", "data"}


def find_strangeness(pointer: Pointer) -> tuple[str, str] | None:
    """Return fact and cure where an address leads astray; the fact has a gap for it."""
    if pointer.is_loaded and is_elsewhere(pointer.target):
        return 'the page would load "{}" from elsewhere by itself', ELSEWHERE_CURE
    if not pointer.is_loaded and split_address(pointer.target).scheme not in _KNOWN_SCHEMES:
        return '"{}" is no link to a page', "use https, mailto or tel"
    return None
