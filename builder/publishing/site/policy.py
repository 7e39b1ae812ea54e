"""What a page may load and run: its own site's files, and the scripts that stand in it, no more.

The policy (Content Security Policy, level 3, of the World Wide Web Consortium) stands in each page,
because a plain host of files sends no headers of ours. What only a header can say goes into a file
that common hosts read.
"""

import base64
import hashlib
import re
from collections.abc import Iterable, Mapping
from html.parser import HTMLParser

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


class _InlineTexts(HTMLParser):
    """The texts of a page's own scripts and styles."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.scripts: list[str] = []
        self.styles: list[str] = []
        self._inside: list[str] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if tag == "style":
            self._open(self.styles)
        elif tag == "script" and "src" not in values and _runs(values.get("type")):
            self._open(self.scripts)

    def handle_endtag(self, tag: str) -> None:
        if tag in ("script", "style"):
            self._inside = None

    def handle_data(self, data: str) -> None:
        if self._inside is not None:
            self._inside[-1] += data

    def _open(self, texts: list[str]) -> None:
        texts.append("")
        self._inside = texts


def _runs(kind: str | None) -> bool:
    return (kind or "").lower() in _RUNS


def add_policy(html: str) -> str:
    """Return a finished page with its policy in the head, before anything that it rules."""
    rules = dict(_RULES)
    rules["script-src"] = " ".join((rules["script-src"], *_hash_all(_read_inline(html).scripts)))
    return _write_policy(html, rules)


def add_closed_policy(html: str) -> str:
    """Return a page that is whole in itself with a policy that allows its own parts alone."""
    texts = _read_inline(html)
    rules = dict(_CLOSED_RULES)
    rules["script-src"] = " ".join(_hash_all(texts.scripts)) or "'none'"
    rules["style-src"] = " ".join(_hash_all(texts.styles)) or "'none'"
    return _write_policy(html, rules)


def _read_inline(html: str) -> _InlineTexts:
    texts = _InlineTexts()
    texts.feed(html)
    texts.close()
    return texts


def _write_policy(html: str, rules: Mapping[str, str]) -> str:
    text = "; ".join(f"{name} {value}" for name, value in rules.items())
    meta = f'<meta http-equiv="Content-Security-Policy" content="{text}">'
    return _HEAD.sub(lambda head: head.group() + meta, html, count=1)


def _hash_all(texts: Iterable[str]) -> list[str]:
    return sorted({_hash(text) for text in texts if text})


def _hash(script: str) -> str:
    digest = hashlib.sha256(script.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"
