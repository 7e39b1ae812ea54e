"""Typefaces of finished cards and packs: only the tool's own, and each in its file."""

import hashlib
from collections.abc import Iterable, Iterator
from functools import partial

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.evidence import EditionProof, Kind
from builder.publishing.proof.safety.pdf_fonts import find_foreign_fonts
from builder.publishing.proof.safety.source import Read
from builder.work.bounded_share import share_bounded
from builder.work.kept import Kept, make_key
from builder.work.share import share
from builder.work.tool import digest_tool

_CURE = "take out the style that names another typeface, or install tempoleaf again"


def list_pdfs(edition: EditionProof) -> tuple[str, ...]:
    """Return the PDFs that show lessons, each once."""
    artefacts = (artefact for _, artefact in edition.list_artefacts())
    files = (each.file for each in artefacts if each.kind in (Kind.CARD, Kind.PACK))
    return tuple(dict.fromkeys(files))


def find_strange_fonts(
    read: Read, files: Iterable[str], kept: Kept | None = None, *, is_ours: bool = True
) -> Iterator[Finding]:
    """Report PDFs with typefaces of others; what the same bytes had before may be kept.

    A file that is no PDF is another finding: nothing can be read in it. One that isn't ours may
    take only so much time and memory.
    """
    names = tuple(files)
    keys = [_key(read, name) for name in names] if kept else [""] * len(names)
    pieces = (kept.get(key) if kept and key else None for key in keys)
    found = dict(zip(names, pieces, strict=True))
    missing = [name for name in names if found[name] is None]
    run = share if is_ours else share_bounded
    found |= dict(zip(missing, run(partial(_find, read), missing), strict=True))
    for name, key in zip(names, keys, strict=True):
        if kept and key and name in missing:
            kept.put(key, found[name])
        for font in found[name] or ():
            fact = f'"{name}" has letters of "{font}", which is not the tool\'s own or not in it'
            yield rules.FOREIGN_FONT.at(Place(name), fact, _CURE)


def _key(read: Read, name: str) -> str:
    try:
        return make_key("fonts", digest_tool(), hashlib.sha256(read(name)).hexdigest())
    except OSError:
        return ""


def _find(read: Read, name: str) -> list[str]:
    try:
        return list(find_foreign_fonts(read(name)))
    except (OSError, PdfUnsoundError):
        return []
