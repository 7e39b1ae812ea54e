"""Addresses: where a site will stand on the web."""

import re
from urllib.parse import urlsplit

from builder.errors import InvalidValueError

LONGEST_ADDRESS = 200
_SIGNS = re.compile(r"https?://[!#-&(-;=?-\[\]_a-z~]+")
"""Printable ASCII without quotes and brackets that would need escaping (RFC 3986)."""


def check_address(text: str) -> str:
    """Return a web address without spaces around it; raise InvalidValueError where it is none."""
    address = text.strip()
    if len(address) > LONGEST_ADDRESS or not _SIGNS.fullmatch(address):
        raise _unlike_an_address(address)
    try:
        parts = urlsplit(address)
        host, _ = parts.hostname, parts.port
    except ValueError:
        raise _unlike_an_address(address) from None
    if not host or parts.query or parts.fragment:
        raise _unlike_an_address(address)
    return address


def _unlike_an_address(address: str) -> InvalidValueError:
    shown = address if len(address) <= LONGEST_ADDRESS else f"{address[:LONGEST_ADDRESS]}…"
    return InvalidValueError(
        f'"{shown}" is no web address for a site',
        "give it whole, such as https://studio.example/, without ? and #",
    )
