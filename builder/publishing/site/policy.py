"""What a page may load and run: its own site's files, and the scripts that stand in it, no more.

The policy (Content Security Policy, level 3, of the World Wide Web Consortium) stands in each page,
because a plain host of files sends no headers of ours. What only a header can say goes into a file
that common hosts read.
"""

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping

from selectolax.lexbor import LexborHTMLParser

HEADERS_FILE = "_headers"
HEADERS = """\
/*
  Content-Security-Policy: frame-ancestors 'none'
  Cross-Origin-Opener-Policy: same-origin
  Permissions-Policy: camera=(), geolocation=(), microphone=(), payment=(), screen-wake-lock=(self)
  Referrer-Policy: no-referrer
  X-Content-Type-Options: nosniff
"""
NO_JEKYLL = ".nojekyll"
"""An empty file of this name keeps hosts that use Jekyll from leaving out what begins with _."""
_RULES = (
    ("default-src", "'none'"),
    ("script-src", "'self'"),
    ("style-src", "'self'"),
    ("img-src", "'self' data:"),
    ("media-src", "'self'"),
    ("font-src", "'self'"),
    ("connect-src", "'self'"),
    ("worker-src", "'self'"),
    ("manifest-src", "'self'"),
    ("base-uri", "'none'"),
    ("form-action", "'none'"),
)
_CLOSED_RULES = (
    ("default-src", "'none'"),
    ("font-src", "data:"),
    ("base-uri", "'none'"),
    ("form-action", "'none'"),
)
"""For a page that is whole in itself and asks nobody for anything."""
_HEAD = re.compile(r"<head\b[^>]*>(\s*<meta charset=[^>]*>)?", re.IGNORECASE)
_RUNS = frozenset({"", "module", "text/javascript", "application/javascript"})
"""Types of scripts that a browser runs; any other is data."""


def _runs(kind: str | None) -> bool:
    return (kind or "").lower() in _RUNS


def add_policy(html: str) -> str:
    """Return a finished page with its policy in the head, before anything that it rules."""
    rules = dict(_RULES)
    rules["script-src"] = " ".join(
        (rules["script-src"], *_hash_all(_list_scripts(LexborHTMLParser(html))))
    )
    return _write_policy(html, rules)


def add_closed_policy(html: str) -> str:
    """Return a page that is whole in itself with a policy that allows its own parts alone."""
    page = LexborHTMLParser(html)
    rules = dict(_CLOSED_RULES)
    rules["script-src"] = " ".join(_hash_all(_list_scripts(page))) or "'none'"
    rules["style-src"] = " ".join(_hash_all(_list_styles(page))) or "'none'"
    return _write_policy(html, rules)


def _list_scripts(page: LexborHTMLParser) -> Iterator[str]:
    """Yield the texts of a page's own scripts, as far as a browser runs them."""
    for node in page.css("script:not([src])"):
        if _runs(node.attributes.get("type")):
            yield node.text()


def _list_styles(page: LexborHTMLParser) -> Iterator[str]:
    for node in page.css("style"):
        yield node.text()


def _write_policy(html: str, rules: Mapping[str, str]) -> str:
    text = "; ".join(f"{name} {value}" for name, value in rules.items())
    meta = f'<meta http-equiv="Content-Security-Policy" content="{text}">'
    return _HEAD.sub(lambda head: head.group() + meta, html, count=1)


def _hash_all(texts: Iterable[str]) -> list[str]:
    return sorted({_hash(text) for text in texts if text})


def _hash(script: str) -> str:
    digest = hashlib.sha256(script.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"
