"""Addresses as people write them, taken apart."""

from functools import lru_cache
from urllib.parse import SplitResult, urlsplit

_KEPT = 4096
"""How many are kept apart: a site's pages name the same ones again and again."""


@lru_cache(_KEPT)
def split_address(address: str) -> SplitResult:
    """Take an address apart; one that is none becomes a path, which leads to nothing."""
    try:
        return urlsplit(address)
    except ValueError:
        return SplitResult("", "", address, "", "")
