"""Addresses as a browser reads them: it passes over signs, and takes some for others.

By the URL standard of the WHATWG (url.spec.whatwg.org, section 4.4, state machine): spaces and
control characters around an address don't count, tabs and line ends inside it neither, and a
backslash is a slash.
"""

import re
from enum import Enum
from html import unescape

_AROUND = "".join(map(chr, range(0x21)))
_PASSED_OVER = str.maketrans("\\", "/", "\t\n\r")
_SCHEME = re.compile(r"([a-z][a-z0-9+.-]*):", re.IGNORECASE)
_LINKED = frozenset({"http", "https", "mailto", "tel"})
"""What a page may lead to."""
_ODD = re.compile(r"[\x00-\x1f\x7f\\<>\"`]")


class Use(Enum):
    """What a page does with an address."""

    LINK = "link"
    """It is opened when somebody asks for it."""
    PICTURE = "picture"
    """It is fetched at once."""


def find_address_fault(written: str, use: Use) -> str | None:
    """Say why a page may not hold an address; None where it may."""
    address = written.strip(_AROUND).translate(_PASSED_OVER)
    scheme = _SCHEME.match(address)
    if use is Use.PICTURE and (scheme or address.startswith("//")):
        return "would be fetched from somewhere else"
    if scheme and scheme[1].lower() not in _LINKED:
        return "is no address of a page"
    if address.startswith("//"):
        return "leads to another host without saying how"
    if _ODD.search(written):
        return "is no address that a browser reads as it stands"
    return None


def decode_address(written: str) -> str:
    """Return an address as it is once its entities are letters."""
    return unescape(written)
