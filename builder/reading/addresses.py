"""Where a project's own files say that its site will stand on the web."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.findings import Place
from builder.reading.text_file import read_text
from builder.reading.yaml_tree import read_yaml

COURSE = "content/course.yml"
SETTINGS = "mkdocs.yml"
_SITE_URL = re.compile(r"^site_url:[ \t]*[\"']?(https?://[^\s\"'#]+)", re.MULTILINE)
"""The host's settings may hold tags of its own, so only this line of them is read."""


@dataclass(frozen=True, slots=True)
class Declared:
    """Each address with the place where it stands; none where there are no sources."""

    addresses: tuple[tuple[Place, str], ...] = ()


def read_declared(project: Path) -> Declared:
    """Read the addresses that a project's course file and site settings give."""
    return Declared(tuple(_list_addresses(project)))


def _list_addresses(project: Path) -> Iterator[tuple[Place, str]]:
    text = _read(project, COURSE)
    tree, _ = read_yaml(text, COURSE) if text else (None, [])
    address = tree.values.get("address") if tree else None
    if tree and isinstance(address, str) and address:
        yield Place(COURSE, *tree.places[("address",)]), address
    text = _read(project, SETTINGS)
    found = _SITE_URL.search(text)
    if found:
        yield Place(SETTINGS, text.count("\n", 0, found.start()) + 1), found[1]


def _read(project: Path, file: str) -> str:
    """Return the text of a file; nothing where there is none that can be read."""
    if not (project / file).is_file():
        return ""
    return read_text(project, project / file)[0] or ""
