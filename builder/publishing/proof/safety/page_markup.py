"""Whether all browsers make the same of a finished page's markup, and stay on the page."""

import re

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.safety.chapter_markup import is_same_as_xml

_XML = ".xhtml"
"""How the names of chapters end."""
_STANDARD = re.compile(
    r"\ufeff?\s*(?:<\?xml[^<>]*\?>\s*)?<!doctype\s+html\s*>", re.IGNORECASE | re.ASCII
)
"""How a page begins that browsers read by the standard."""
_ENCODED = re.compile(rb"<meta\s+charset\s*=\s*[\"']?utf-8[\"'\s/>]", re.IGNORECASE)
_ENCODED_WITHIN = 1024
"""Bytes in which browsers look for how a page is written (HTML, 4.2.5.4)."""
_LEADING = (
    "base, meta[charset], meta[http-equiv], meta[name=viewport i], meta[name=color-scheme i], "
    "frameset, noframes"
)
_VIEWPORT = re.compile(r"width=device-width(?:,initial-scale=1(?:\.0)?)?", re.IGNORECASE)
_WITHOUT_SCRIPTS = re.compile(
    r"<noscript\b[^>]*>.*?</noscript\s*>", re.IGNORECASE | re.ASCII | re.DOTALL
)


def is_read_alike(path: str, content: bytes, text: str, tree: LexborHTMLParser) -> bool:
    """Tell whether a page has one meaning; ``tree`` is its ``text`` as a reader of pages has it."""
    if path.endswith(_XML) and not is_same_as_xml(content, tree):
        return False
    if _STANDARD.match(text) is None or _ENCODED.search(content[:_ENCODED_WITHIN]) is None:
        return False
    if not all(_is_usual(node) for node in tree.css(_LEADING)):
        return False
    return not tree.css_matches("noscript") or _is_same_with_scripts(text)


def _is_same_with_scripts(text: str) -> bool:
    """Tell whether browsers that run scripts, and skip what is for others, see the same page."""
    skipped = _WITHOUT_SCRIPTS.sub("<noscript></noscript>", text)
    return _write_without(text) == _write_without(skipped)


def _write_without(text: str) -> str | None:
    tree = LexborHTMLParser(text)
    for node in tree.css("noscript"):
        node.decompose()
    return tree.html


def _is_usual(node: LexborNode) -> bool:
    """Tell whether a mark of a whole page neither leads elsewhere nor has it shown oddly."""
    values = node.attributes
    if node.tag != "meta":
        return False
    if "http-equiv" in values:
        return (values["http-equiv"] or "").lower() == "content-security-policy"
    if "charset" in values:
        return (values["charset"] or "").strip().lower() == "utf-8"
    content = re.sub(r"\s", "", values.get("content") or "")
    if (values.get("name") or "").lower() == "viewport":
        return _VIEWPORT.fullmatch(content) is not None
    return content in {"light", "onlylight", "normal"}
