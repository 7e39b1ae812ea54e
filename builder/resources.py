"""Where the files lie that are shipped with the tool."""

from pathlib import Path

from builder.errors import BuilderError

_PACKAGE = Path(__file__).resolve().parent


def find_templates() -> Path:
    """Return the folder of page and card templates, styles and fonts."""
    return _find("site_templates")


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
