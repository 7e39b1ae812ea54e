"""Where the files lie that are shipped with the tool, and that they are as they were released."""

import hashlib
from functools import cache
from pathlib import Path

from builder.errors import BuilderError

PARTS = "parts.sha256"
"""The digest of every template, style and font, as ``sha256sum --check`` reads it."""
_PACKAGE = Path(__file__).resolve().parent


@cache
def find_templates() -> Path:
    """Return the folder of page and card templates, styles and fonts, each of them whole.

    A card that lacks one line, or has another typeface, is a card that nobody has looked at.
    """
    folder = _find("site_templates")
    spoilt = find_spoilt_part(folder)
    if spoilt:
        raise BuilderError(
            f'the tool\'s own "{spoilt}" is not as it was released: nothing can be made with it',
            "install tempoleaf again",
        )
    return folder


def find_spoilt_part(folder: Path) -> str | None:
    """Return the first file of a templates folder that is missing or changed."""
    try:
        told = (folder / PARTS).read_text(encoding="utf-8").splitlines()
    except OSError:
        return PARTS
    for line in told:
        digest, _, name = line.partition("  ")
        try:
            content = (folder / name).read_bytes()
        except OSError:
            return name
        if hashlib.sha256(content).hexdigest() != digest:
            return name
    return None


def find_fonts() -> Path:
    """Return the folder of the tool's own font files."""
    return find_templates() / "fonts"


def find_starter() -> Path:
    """Return the content folder of the starter course."""
    return _find("content")


def find_lock() -> Path:
    """Return the list of what the tool stands on, each with its hashes, as pip reads it."""
    return _find("requirements.lock", "lock/requirements.lock")


def _find(name: str, shipped: str = "") -> Path:
    """Look beside the package first (a checkout), then inside it (an installed wheel)."""
    for path in (_PACKAGE.parent / name, _PACKAGE / "shipped" / (shipped or name)):
        if path.exists():
            return path
    raise BuilderError(f'the tool\'s own "{name}" is missing', "install tempoleaf again")
