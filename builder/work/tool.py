"""What the tool is made of, as a digest: a part of every key under which work is kept.

Nothing of a machine is in it but what shapes what the tool makes, so that machines can compare.
What sets text on top of that is in the press's digest (``builder/work/press.py``).
"""

import hashlib
import os
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from builder.resources import find_templates

_PACKAGE = Path(__file__).resolve().parents[1]
_NOT_CODE = frozenset({"__pycache__", "shipped"})
"""What Python makes of code, and where an installed tool has the templates, which count alone."""
_REQUIREMENT = re.compile(r"Requires-Dist: ([\w.-]+)(?:\s*\[([^]]*)\])?([^\n]*)")
_EXTRA = re.compile(r"extra == ['\"]([^'\"]+)")


@cache
def digest_tool() -> str:
    """Return a digest of all code and templates, of Python, and of the libraries under them."""
    python = repr((sys.implementation.name, *sys.version_info))
    parts = (python, *list_libraries(), digest_files(_PACKAGE, find_templates()))
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()


def digest_files(*folders: Path) -> str:
    """Return a digest of every file of some folders, the code's own by-products left out."""
    digest = hashlib.sha256()
    for folder in folders:
        for path in sorted(_list_files(folder)):
            content = Path(path).read_bytes()
            name = os.path.relpath(path, folder).replace(os.sep, "/")
            digest.update(f"\0{name}\0{len(content)}\0".encode())
            digest.update(content)
    return digest.hexdigest()


def list_libraries(name: str = "tempoleaf") -> tuple[str, ...]:
    """Return what a package stands on, all the way down: "weasyprint 70.0" and so on, sorted.

    All that is installed where the package itself isn't, as when it runs from a folder of files.
    """
    here = _find_installed()
    if name not in here:
        return list_installed()
    found: dict[tuple[str, str], None] = {}
    waiting = [(name, "")]
    while waiting:
        wanted = waiting.pop()
        if wanted not in found and wanted[0] in here:
            found[wanted] = None
            waiting += _list_requirements(here[wanted[0]], wanted[1])
    return tuple(sorted({_tell(here[each]) for each, _ in found if each != name}))


def list_installed() -> tuple[str, ...]:
    """Return everything that is installed, whether the tool asks for it or not, sorted."""
    return tuple(sorted(map(_tell, _find_installed().values())))


def _find_installed() -> dict[str, Path]:
    """Return the folder that tells of each library by its name; of several, the first counts."""
    found: dict[str, Path] = {}
    for place in sys.path:
        try:
            told = sorted(Path(place).glob("*-info"))
        except OSError:  # a zip of Python itself, or a place that isn't there
            continue
        for path in told:
            found.setdefault(_normalise(path.stem.partition("-")[0]), path)
    return found


def _list_requirements(told: Path, extra: str) -> Iterator[tuple[str, str]]:
    """Yield the name of each library that one asks for, with every extra of it, and with none."""
    try:
        head = (told / "METADATA").read_text(encoding="utf-8").partition("\n\n")[0]
    except OSError:  # an old kind of folder, which tells nothing of this
        return
    for name, extras, condition in _REQUIREMENT.findall(head):
        own = _EXTRA.search(condition)
        if (own[1] if own else "") == extra:
            yield _normalise(name), ""
            yield from ((_normalise(name), each.strip()) for each in extras.split(",") if each)


def _tell(told: Path) -> str:
    name, _, version = told.stem.partition("-")
    return f"{_normalise(name)} {version}"


def _normalise(name: str) -> str:
    """Write a library's name as others would (PyPA, "Names and normalization")."""
    return re.sub(r"[-_.]+", "-", name).lower()


def _list_files(folder: Path) -> Iterator[str]:
    for place, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if name not in _NOT_CODE]
        yield from (f"{place}/{name}" for name in files)
