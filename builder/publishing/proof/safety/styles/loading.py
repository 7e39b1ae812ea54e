"""The style sheets that a finished page loads, and which of them are the tool's and the theme's."""

import hashlib
import importlib.util
from collections.abc import Callable, Iterator
from functools import cache, lru_cache
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.styles.conditions import Condition
from builder.publishing.proof.safety.styles.rulebook import LaidSheet
from builder.publishing.proof.safety.styles.sheets import Sheet, read_sheet
from builder.resources import find_templates

Read = Callable[[str], bytes]
"""Gives a file of the site by its path; OSError where there is none."""

_DEEPEST = 8
_ODD = Sheet((), (), (), frozenset(), True)
"""A sheet that can't be read: it may do anything."""


def load_sheets(read: Read, path: str, tree: LexborHTMLParser) -> tuple[LaidSheet, ...]:
    """Return the sheets of a page in their order, imported ones before their importers."""
    found: list[LaidSheet] = []
    for node in _find_sheets(tree):
        values = node.attributes
        media = (values.get("media") or "").strip()
        conditions = (Condition(media),) if media else ()
        if node.tag == "style":
            content = (node.text() or "").encode()
            found += _lay(read, dirname(path), open_sheet(content), conditions, 0)
        else:
            address = resolve_address(dirname(path), values.get("href") or "")
            found += _lay_file(read, address, conditions, 0)
    return tuple(found)


def resolve_address(folder: str, address: str) -> str | None:
    """Return a style sheet's path in the site; None for what lies elsewhere or has another name."""
    parts = urlsplit(address.strip())
    target = unquote(parts.path)
    if parts.scheme or parts.netloc or not target.endswith(".css") or target.startswith("/"):
        return None
    path = normpath(join(folder, target))
    return None if path.startswith("..") or "\\" in path or "\0" in path else path


@lru_cache(maxsize=128)
def open_sheet(content: bytes) -> tuple[Sheet, bool]:
    """Read a sheet, and tell whether it is ours, byte for byte."""
    is_ours = hashlib.sha256(content).digest() in _list_own()
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _ODD, False
    try:
        return read_sheet(text), is_ours
    except RecursionError:
        return _ODD, False


def _find_sheets(tree: LexborHTMLParser) -> Iterator[LexborNode]:
    for node in tree.css("link[rel], style"):
        kinds = (node.attributes.get("rel") or "").lower().split()
        if node.tag == "style" or "stylesheet" in kinds:
            yield node


def _lay_file(
    read: Read, address: str | None, conditions: tuple[Condition, ...], depth: int
) -> list[LaidSheet]:
    """Lay one file's sheets; what isn't there, or can't be known, may do anything."""
    if address is None or depth > _DEEPEST:
        return [LaidSheet(_ODD, False, conditions)]
    try:
        content = read(address)
    except OSError:
        return [LaidSheet(_ODD, False, conditions)]
    return _lay(read, dirname(address), open_sheet(content), conditions, depth)


def _lay(
    read: Read,
    folder: str,
    opened: tuple[Sheet, bool],
    conditions: tuple[Condition, ...],
    depth: int,
) -> list[LaidSheet]:
    sheet, is_ours = opened
    laid: list[LaidSheet] = []
    for address, asked in sheet.imports:
        inner = resolve_address(folder, address)
        laid += _lay_file(read, inner, (*conditions, *asked), depth + 1)
    return [*laid, LaidSheet(sheet, is_ours, conditions)]


@cache
def _list_own() -> frozenset[bytes]:
    """Return the digests of the style sheets that come with the tool and with the theme."""
    templates = find_templates()
    files = [templates / "assets" / "site.css", templates / "epub" / "style.css"]
    theme = importlib.util.find_spec("material")
    if theme is not None and theme.origin is not None:
        styles = Path(theme.origin).parent / "templates" / "assets" / "stylesheets"
        files += sorted(styles.glob("*.css"))
    return frozenset(hashlib.sha256(file.read_bytes()).digest() for file in files)
