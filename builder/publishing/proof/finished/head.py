"""What a finished page tells machines about itself: its address, pictures, linked data."""

import html
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass

_LINK = re.compile(r"<link\b[^>]*>", re.IGNORECASE)
_META = re.compile(r"<meta\b[^>]*>", re.IGNORECASE)
_ATTRIBUTE = re.compile(r"""([a-zA-Z:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+))""")
_DATA = re.compile(
    r"<script\b[^>]*\btype\s*=\s*[\"']?application/ld\+json[\"']?[^>]*>(.*?)</script>",
    re.IGNORECASE | re.DOTALL,
)
_WEB = ("http://", "https://")


@dataclass(frozen=True, slots=True)
class PageHead:
    """The whole addresses that a page gives to machines."""

    canonical: str
    """Where the page says that it stands; empty where it doesn't."""
    named: tuple[str, ...]
    """Whole addresses in its meta elements and linked data."""
    is_sound: bool = True
    """False where its linked data is no JSON."""


def read_head(text: str) -> PageHead:
    """Read what a page's text tells machines."""
    canonical = ""
    for tag in _LINK.findall(text):
        values = _read_attributes(tag)
        if values.get("rel", "").lower() == "canonical":
            canonical = values.get("href", "")
    named = [_read_attributes(tag).get("content", "") for tag in _META.findall(text)]
    is_sound = True
    for block in _DATA.findall(text):
        try:
            named += _list_texts(json.loads(block))
        except (ValueError, RecursionError):
            is_sound = False
    distinct = dict.fromkeys(text for text in named if text.startswith(_WEB))
    return PageHead(canonical, tuple(distinct), is_sound)


def _read_attributes(tag: str) -> dict[str, str]:
    return {
        name.lower(): html.unescape(double or single or bare)
        for name, double, single, bare in _ATTRIBUTE.findall(tag)
    }


def _list_texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from _list_texts(part)
    elif isinstance(value, list):
        for part in value:
            yield from _list_texts(part)
