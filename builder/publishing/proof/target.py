"""What a finished page's links lead to."""

import posixpath
from functools import lru_cache
from urllib.parse import unquote

from builder.publishing.proof.address import split_address

_SAME = ""
"""The page itself; no path from a site's folder is empty."""
_KEPT = 4096
"""How many links are remembered: pages of a folder share those of their frame."""


def resolve(page: str, target: str) -> tuple[str | None, str]:
    """Return the file in the site that a page's link means, and the anchor; None if outside."""
    file, anchor = _resolve_within(posixpath.dirname(page), target)
    return page if file == _SAME else file, anchor


@lru_cache(_KEPT)
def _resolve_within(folder: str, target: str) -> tuple[str | None, str]:
    """Return what a link means on any page of a folder."""
    parts = split_address(target)
    if parts.scheme or parts.netloc:
        return None, ""
    address = unquote(parts.path)
    start = "" if address.startswith("/") else folder
    file = posixpath.normpath(posixpath.join(start, address.lstrip("/"))) if address else _SAME
    if address.endswith(("/", "/..", "/.")) or address in (".", ".."):
        file = posixpath.normpath(posixpath.join(file, "index.html"))
    return file, unquote(parts.fragment)
