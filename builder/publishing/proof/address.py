"""Addresses as people write them, taken apart."""

from urllib.parse import SplitResult, urlsplit


def split_address(address: str) -> SplitResult:
    """Take an address apart; one that is none becomes a path, which leads to nothing."""
    try:
        return urlsplit(address)
    except ValueError:
        return SplitResult("", "", address, "", "")
