"""The list of what a site keeps on a device, written into its service worker.

A service worker (W3C) answers for the site where there is no signal. It gets every page with its
styles and scripts at once, cards and sounds on request, each with a hash of its content: a new
edition brings only what has changed.
"""

import hashlib
import json
from collections.abc import Iterator, Sequence

from builder.publishing.proof.safety.file import PROOF_FILE
from builder.resources import find_templates
from builder.work.folder_files import FolderFiles

WORKER = "service-worker.js"
_GROUPS = {"sounds": "tracks/*.flac", "cards": "cards/*.pdf"}
"""What is kept on request, by name: the small form of a sound, cards on the course's own paper."""
_LEFT_OUT = (
    *("authors/", "tracks/", "cards/", "previews/", "sitemap", "robots.txt", "_headers"),
    *("proof/", "proof.html", PROOF_FILE),
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


def write_worker(files: FolderFiles, *, others: Sequence[str] = (), whole: str = "") -> None:
    """Write the service worker of a finished site; the same site gives the same file.

    ``others`` are folders with sites of their own; ``whole`` leads to the site that this one is
    a part of.
    """
    template = (find_templates() / "worker" / "service_worker.js").read_text(encoding="utf-8")
    pages = {path: _hash(files, path) for path in _list_pages(files, others)}
    kept = {name: _group(files, pattern, whole) for name, pattern in _GROUPS.items()}
    edition = {
        "code": hashlib.sha256(json.dumps([pages, kept]).encode()).hexdigest()[:16],
        "pages": pages,
        "kept": {name: group for name, group in kept.items() if group["files"]},
    }
    text = json.dumps(edition, separators=(",", ":"))
    (files.folder / WORKER).write_text(template.replace(_EMPTY, text), encoding="utf-8")


def _list_pages(files: FolderFiles, others: Sequence[str]) -> Iterator[str]:
    left_out = (*_LEFT_OUT, *(f"{other}/" for other in others))
    for name in files.list_names():
        if not (name.startswith(left_out) or name.endswith(_LEFT_OUT_ENDINGS)):
            yield name


def _group(files: FolderFiles, pattern: str, whole: str) -> dict[str, object]:
    within = whole if pattern.startswith(_SHARED) else ""
    folder = files.folder / within
    paths = sorted(folder.glob(pattern))
    names = [within + path.relative_to(folder).as_posix() for path in paths]
    return {
        "bytes": sum(path.stat().st_size for path in paths),
        "files": {name: _hash(files, name) for name in names},
    }


def _hash(files: FolderFiles, name: str) -> str:
    return files.digest(name)[:HASH_DIGITS]
