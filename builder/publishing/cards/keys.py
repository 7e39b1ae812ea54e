"""Keys of the card cache: everything that a finished card depends on."""

import hashlib
from collections.abc import Sequence
from functools import cache
from importlib.metadata import version
from pathlib import Path

import builder
from builder import __version__
from builder.course.audience import Audience
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_plan import Pack
from builder.resources import find_templates
from builder.sums.paper import Paper

_ENGINES = ("weasyprint", "pydyf", "fonttools", "pikepdf", "pypdfium2", "segno", "jinja2")
_NOT_OURS = frozenset({"__pycache__", "node_modules"})
"""Folders of what others make from the tool's files, or beside them."""


def key_piece(kind: str, *told: str) -> str:
    """Return the key of anything that the tool makes of what is told."""
    return _digest(kind, describe_tool(), *told)


def key_outline(outline: str, audience: Audience, papers: Sequence[Paper]) -> str:
    """Return the key under which stand the keys of a lesson's cards on some papers."""
    return key_piece("outline", audience, repr(tuple(papers)), outline)


def key_card(face: CardFace) -> str:
    """Return the key of a card: the tool, its parts and everything on the card."""
    return key_piece("card", repr(face))


def key_pack(pack: Pack, card_keys: tuple[str, ...]) -> str:
    """Return the key of a pack: its contents and the cards in it."""
    return key_piece("pack", repr(pack), *card_keys)


@cache
def describe_tool() -> str:
    """Return a digest of the whole tool: code, words, styles, fonts and libraries.

    What has no part in a card is in it too: to leave out what has one would be worse than to
    print a card for nothing after an update.
    """
    engines = (f"{name} {version(name)}" for name in _ENGINES)
    contents = (hashlib.sha256(path.read_bytes()).hexdigest() for path in list_makers())
    return _digest(__version__, *engines, *contents)


def list_makers() -> list[Path]:
    """Return every file of the tool."""
    return [
        path
        for root in (Path(builder.__file__).parent, find_templates())
        for path in sorted(root.rglob("*"))
        if path.is_file() and _NOT_OURS.isdisjoint(path.relative_to(root).parts)
    ]


def _digest(*parts: str) -> str:
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode()).hexdigest()
