"""What the tool is made of, as a digest: a part of every key under which work is kept."""

import hashlib
import os
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from builder.resources import find_templates

_PACKAGE = Path(__file__).resolve().parents[1]
_MADE_BY_PYTHON = "__pycache__"


@cache
def describe_tool_here() -> str:
    """Return a digest of all code and templates of the tool, of Python and of the libraries."""
    libraries = sorted(_list_libraries())
    files = digest_files(_PACKAGE, find_templates())
    return hashlib.sha256("\0".join((sys.version, *libraries, files)).encode()).hexdigest()


def digest_files(*folders: Path) -> str:
    """Return a digest of every file of some folders but what Python makes of them."""
    digest = hashlib.sha256()
    for folder in folders:
        for path in sorted(_list_files(folder)):
            content = Path(path).read_bytes()
            digest.update(f"\0{os.path.relpath(path, folder)}\0{len(content)}\0".encode())
            digest.update(content)
    return digest.hexdigest()


def _list_libraries() -> Iterator[str]:
    """Yield what is installed, by the folders that carry a library's name and its version."""
    for place in sys.path:
        try:
            yield from (path.name for path in Path(place).glob("*-info"))
        except OSError:  # a zip of Python itself, or a place that isn't there
            continue


def _list_files(folder: Path) -> Iterator[str]:
    for place, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if name != _MADE_BY_PYTHON]
        yield from (f"{place}/{name}" for name in files)
