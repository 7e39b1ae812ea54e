"""The list of what a site keeps on a device, written into its service worker.

A service worker (W3C) answers for the site where there is no signal. It gets every page with its
styles and scripts at once, cards and sounds on request, each with a hash of its content: a new
edition brings only what has changed.
"""

import hashlib
import json
from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.resources import find_templates

WORKER = "service-worker.js"
_GROUPS = {"sounds": "tracks/*.flac", "cards": "cards/*.pdf"}
"""What is kept on request, by name: the small form of a sound, cards on the course's own paper."""
_LEFT_OUT = (
    *("authors/", "tracks/", "cards/", "previews/", "sitemap", "robots.txt", "_headers"),
    *(WORKER, "."),
)
"""Beginnings of paths that no learner needs without a signal."""
_LEFT_OUT_ENDINGS = (".map", ".pdf", ".epub", "lunr/wordcut.js", "lunr/tinyseg.js")
"""The last two part words of languages that write without spaces."""
HASH_DIGITS = 16
"""As many of a hash as tell two editions of a file apart."""
_SHARED = "tracks/"
"""What the sites of all languages have in common."""
_EMPTY = '{ code: "", pages: {}, kept: {} }'
"""What stands in the template in place of the list."""


def write_worker(folder: Path, *, others: Sequence[str] = (), whole: str = "") -> None:
    """Write the service worker of a finished site; the same site gives the same file.

    ``others`` are folders with sites of their own; ``whole`` leads to the site that this one is
    a part of.
    """
    template = (find_templates() / "worker" / "service_worker.js").read_text(encoding="utf-8")
    pages = {path: _hash(folder / path) for path in _list_pages(folder, others)}
    kept = {name: _group(folder, pattern, whole) for name, pattern in _GROUPS.items()}
    edition = {
        "code": hashlib.sha256(json.dumps([pages, kept]).encode()).hexdigest()[:16],
        "pages": pages,
        "kept": {name: group for name, group in kept.items() if group["files"]},
    }
    text = json.dumps(edition, separators=(",", ":"))
    (folder / WORKER).write_text(template.replace(_EMPTY, text), encoding="utf-8")


def _list_pages(folder: Path, others: Sequence[str]) -> Iterator[str]:
    left_out = (*_LEFT_OUT, *(f"{other}/" for other in others))
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        is_left_out = name.startswith(left_out) or name.endswith(_LEFT_OUT_ENDINGS)
        if path.is_file() and not is_left_out:
            yield name


def _group(folder: Path, pattern: str, whole: str) -> dict[str, object]:
    within = whole if pattern.startswith(_SHARED) else ""
    paths = sorted((folder / within).glob(pattern))
    return {
        "bytes": sum(path.stat().st_size for path in paths),
        "files": {
            within + path.relative_to(folder / within).as_posix(): _hash(path) for path in paths
        },
    }


def _hash(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()[:HASH_DIGITS]
