"""What a finished page's links lead to."""

import posixpath
from urllib.parse import unquote

from builder.publishing.proof.address import split_address


def resolve(page: str, target: str) -> tuple[str | None, str]:
    """Return the file in the site that a page's link means, and the anchor; None if outside."""
    parts = split_address(target)
    if parts.scheme or parts.netloc:
        return None, ""
    address = unquote(parts.path)
    start = "" if address.startswith("/") else posixpath.dirname(page)
    file = posixpath.normpath(posixpath.join(start, address.lstrip("/"))) if address else page
    if address.endswith(("/", "/..", "/.")) or address in (".", ".."):
        file = posixpath.normpath(posixpath.join(file, "index.html"))
    return file, unquote(parts.fragment)
