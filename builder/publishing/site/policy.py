"""What a page may load and run: its own site's files, and the scripts that stand in it, no more.

The policy (Content Security Policy, level 3, of the World Wide Web Consortium) stands in each page,
because a plain host of files sends no headers of ours. What only a header can say goes into a file
that common hosts read.
"""

import base64
import hashlib
import re
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
_HEAD = re.compile(r"<head\b[^>]*>(\s*<meta charset=[^>]*>)?", re.IGNORECASE)
_RUNS = frozenset({"", "module", "text/javascript", "application/javascript"})
"""Types of scripts that a browser runs; any other is data."""


class _InlineScripts(HTMLParser):
    """The texts of a page's own scripts."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.texts: list[str] = []
        self._is_inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "script":
            values = dict(attrs)
            self._is_inside = "src" not in values and (values.get("type") or "").lower() in _RUNS
            if self._is_inside:
                self.texts.append("")

    def handle_endtag(self, tag: str) -> None:
        if tag == "script":
            self._is_inside = False

    def handle_data(self, data: str) -> None:
        if self._is_inside:
            self.texts[-1] += data


def add_policy(html: str) -> str:
    """Return a finished page with its policy in the head, before anything that it rules."""
    scripts = _InlineScripts()
    scripts.feed(html)
    scripts.close()
    hashes = sorted({_hash(text) for text in scripts.texts if text})
    rules = dict(_RULES)
    rules["script-src"] = " ".join((rules["script-src"], *hashes))
    text = "; ".join(f"{name} {value}" for name, value in rules.items())
    meta = f'<meta http-equiv="Content-Security-Policy" content="{text}">'
    return _HEAD.sub(lambda head: head.group() + meta, html, count=1)


def _hash(script: str) -> str:
    digest = hashlib.sha256(script.encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"
