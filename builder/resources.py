"""Where the files lie that are shipped with the tool."""

import hashlib
from functools import cache
from pathlib import Path

from builder.errors import BuilderError

_PACKAGE = Path(__file__).resolve().parent
_SUMS = "SHA256SUMS"
"""Lists the font files beside it, as the program sha256sum does."""


def find_templates() -> Path:
    """Return the folder of page and card templates, styles and fonts."""
    return _find("site_templates")


@cache
def find_fonts() -> Path:
    """Return the folder of the tool's own font files, of which each is as it was shipped."""
    folder = find_templates() / "fonts"
    refuse_strange_fonts(folder)
    return folder


def refuse_strange_fonts(folder: Path) -> None:
    """Raise BuilderError where a font file in a folder isn't there, or isn't as it was shipped.

    Letters of another typeface might be too wide for a card, or lack a sign.
    """
    try:
        lines = (folder / _SUMS).read_text(encoding="utf-8").splitlines()
    except OSError as error:
        raise _miss(_SUMS) from error
    for digest, name in (line.split() for line in lines):
        try:
            content = (folder / name).read_bytes()
        except OSError as error:
            raise _miss(name) from error
        if hashlib.sha256(content).hexdigest() != digest:
            raise BuilderError(
                f'the tool\'s own font "{name}" is damaged', "install tempoleaf again"
            )


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
    raise _miss(name)


def _miss(name: str) -> BuilderError:
    return BuilderError(f'the tool\'s own "{name}" is missing', "install tempoleaf again")
