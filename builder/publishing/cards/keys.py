"""Keys of the card cache: everything that a finished card depends on."""

import hashlib
from functools import cache
from importlib.metadata import version
from pathlib import Path

import builder
from builder import __version__
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_plan import Pack
from builder.resources import find_templates

_ENGINES = ("weasyprint", "pydyf", "fonttools", "pikepdf", "pypdfium2", "segno", "jinja2")
_OWN_CODE = (
    "course",
    "drawing",
    "publishing/cards",
    "publishing/posters",
    "publishing/proof",
    "publishing/views",
    "sums",
)


def key_card(face: CardFace) -> str:
    """Return the key of a card: the tool, its parts and everything on the card."""
    return _digest("card", describe_tool(), repr(face))


def key_pack(pack: Pack, card_keys: tuple[str, ...]) -> str:
    """Return the key of a pack: its contents and the cards in it."""
    return _digest("pack", describe_tool(), repr(pack), *card_keys)


@cache
def describe_tool() -> str:
    """Return a digest of what makes cards: code, styles, fonts and libraries."""
    engines = (f"{name} {version(name)}" for name in _ENGINES)
    contents = (hashlib.sha256(path.read_bytes()).hexdigest() for path in list_makers())
    return _digest(__version__, *engines, *contents)


def list_makers() -> list[Path]:
    """Return every file of the tool that shapes a card."""
    package = Path(builder.__file__).parent
    templates = find_templates()
    return [
        *sorted((templates / "cards").iterdir()),
        *sorted((templates / "fonts").glob("*.ttf")),
        *(path for name in _OWN_CODE for path in sorted((package / name).rglob("*.py"))),
    ]


def _digest(*parts: str) -> str:
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode()).hexdigest()
