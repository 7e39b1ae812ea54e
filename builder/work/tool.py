"""What the tool on this machine is: a digest of its own files and of what it stands on."""

import hashlib
import sys
from functools import cache
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from re import match

import builder
from builder.resources import find_templates

_NOT_OURS = frozenset({"__pycache__", "shipped"})


@cache
def digest_tool() -> str:
    """Return a digest of the whole tool: code, templates, styles, fonts, and its libraries.

    Two machines with the same digest make the same thing of the same input, as far as the tool
    goes; the text libraries of the system aren't in it.
    """
    hasher = hashlib.sha256()
    hasher.update(repr((sys.version_info[:2], list_libraries())).encode())
    for root in (Path(builder.__file__).parent, find_templates()):
        for path in sorted(root.rglob("*")):
            name = path.relative_to(root)
            if path.is_file() and not _NOT_OURS.intersection(name.parts):
                content = hashlib.sha256(path.read_bytes()).hexdigest()
                hasher.update(f"{name.as_posix()}\0{content}\n".encode())
    return hasher.hexdigest()


def list_libraries() -> tuple[tuple[str, str], ...]:
    """Return the libraries that the tool asks for, each with the version that is here."""
    try:
        asked = requires("tempoleaf") or []
    except PackageNotFoundError:  # run from a folder of files
        asked = []
    names = (match(r"[\w.-]+", each) for each in asked if "extra ==" not in each)
    return tuple((name[0], _find_version(name[0])) for name in names if name)


def _find_version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:  # one for other systems only
        return ""
