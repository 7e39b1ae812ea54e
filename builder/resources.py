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


def _find(name: str) -> Path:
    """Look beside the package first (a checkout), then inside it (an installed wheel)."""
    for folder in (_PACKAGE.parent / name, _PACKAGE / "shipped" / name):
        if folder.is_dir():
            return folder
    raise BuilderError(f'the tool\'s own folder "{name}" is missing', "install tempoleaf again")
