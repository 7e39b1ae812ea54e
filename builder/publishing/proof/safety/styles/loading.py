"""The style sheets that a finished page loads, and which of them are the tool's and the theme's."""

import hashlib
import importlib.util
from collections.abc import Callable, Iterator
from functools import cache, lru_cache
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.page_words import list_above
from builder.publishing.proof.safety.styles.conditions import Condition
from builder.publishing.proof.safety.styles.rulebook import LaidSheet
from builder.publishing.proof.safety.styles.sheets import Sheet, read_sheet
from builder.resources import find_templates

Read = Callable[[str], bytes]
"""Gives a file of the site by its path; OSError where there is none."""

_DEEPEST = 8
_MOST_SHEETS = 64
_MOST_BYTES = 4_000_000
"""The theme's largest sheet has 140,000 (ours)."""
_INNER = frozenset({"svg", "math", "noscript"})
"""Where browsers read sheets by other rules, or not at all."""
_ODD = Sheet((), (), (), frozenset(), (), True)
"""A sheet that can't be read: it may do anything."""


def load_sheets(
    read: Read, path: str, tree: LexborHTMLParser, *, has_inline: bool = True
) -> tuple[LaidSheet, ...]:
    """Return the sheets of a page in their order, imported ones before their importers.

    Those that stand in the page itself are left out unless ``has_inline``.
    """
    loader = _Loader(read)
    for node in _find_sheets(tree):
        if node.tag == "style" and not has_inline:
            continue
        media = (node.attributes.get("media") or "").strip()
        conditions = (Condition(media),) if media else ()
        if not _is_usual(node):
            loader.lay_odd()
        elif node.tag == "style":
            loader.lay(dirname(path), (node.text() or "").encode(), conditions, 0)
        else:
            address = resolve_address(dirname(path), node.attributes.get("href") or "")
            loader.lay_file(address, conditions, 0)
    return tuple(loader.laid)


class _Loader:
    """Lays a page's sheets one after another."""

    def __init__(self, read: Read) -> None:
        self._read = read
        self.laid: list[LaidSheet] = []

    def lay_odd(self) -> None:
        """Lay a sheet that can't be known, and so may do anything."""
        self.laid.append(LaidSheet(_ODD, False))

    def lay_file(self, address: str | None, conditions: tuple[Condition, ...], depth: int) -> None:
        """Lay a file's sheets, if it is there."""
        if address is None or depth > _DEEPEST or len(self.laid) > _MOST_SHEETS:
            self.lay_odd()
            return
        try:
            content = self._read(address)
        except OSError:
            self.lay_odd()
            return
        self.lay(dirname(address), content, conditions, depth)

    def lay(
        self, folder: str, content: bytes, conditions: tuple[Condition, ...], depth: int
    ) -> None:
        """Lay a sheet after those that it imports."""
        sheet, is_ours = open_sheet(content)
        for address, asked in sheet.imports:
            self.lay_file(resolve_address(folder, address), (*conditions, *asked), depth + 1)
        self.laid.append(LaidSheet(sheet, is_ours, conditions))
        if is_ours and not all(self._is_own_file(folder, name) for name in sheet.letters):
            self.lay_odd()

    def _is_own_file(self, folder: str, address: str) -> bool:
        """Tell whether letters are ours, or missing, which has others stand in for them."""
        try:
            content = self._read(normpath(join(folder, address)))
        except OSError:
            return True
        return is_own_typeface(content)


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
    if len(content) > _MOST_BYTES:
        return _ODD, False
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _ODD, False
    try:
        return read_sheet(text), is_ours
    except RecursionError:
        return _ODD, False


@lru_cache(maxsize=32)
def is_own_typeface(content: bytes) -> bool:
    """Tell whether a file of letters is one of ours, byte for byte."""
    return hashlib.sha256(content).digest() in _list_own()


def _find_sheets(tree: LexborHTMLParser) -> Iterator[LexborNode]:
    for node in tree.css("link[rel], style"):
        kinds = (node.attributes.get("rel") or "").lower().split()
        if node.tag == "style" or "stylesheet" in kinds:
            yield node


def _is_usual(node: LexborNode) -> bool:
    """Tell whether a browser surely applies a sheet: no choice, no other kind, no other place."""
    values = node.attributes
    kind = (values.get("type") or "text/css").strip().lower()
    rel = (values.get("rel") or "stylesheet").strip().lower()
    is_plain = values.keys() <= {"rel", "href", "media", "type"}
    is_inner = any(above.tag in _INNER for above in list_above(node))
    return is_plain and not is_inner and kind == "text/css" and rel == "stylesheet"


@cache
def _list_own() -> frozenset[bytes]:
    """Return the digests of styles and letters that come with the tool and with the theme."""
    templates = find_templates()
    files = [templates / "assets" / "site.css", templates / "epub" / "style.css"]
    files += sorted((templates / "fonts").glob("*.woff2"))
    theme = importlib.util.find_spec("material")
    if theme is not None and theme.origin is not None:
        styles = Path(theme.origin).parent / "templates" / "assets" / "stylesheets"
        files += sorted(styles.glob("*.css"))
    return frozenset(hashlib.sha256(file.read_bytes()).digest() for file in files)
