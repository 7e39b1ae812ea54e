"""Keys of what is kept between builds: the tool itself, and values spelled to the last part."""

import hashlib
import re
import sys
from collections.abc import Iterable
from functools import cache
from importlib.metadata import version
from pathlib import Path
from re import Match

import builder
from builder import __version__
from builder.resources import find_templates

_ENGINES = (
    *("babel", "jinja2", "markdown", "markupsafe", "selectolax"),
    *("pikepdf", "pillow", "pypdfium2"),
)
_LEFT_OUT = "__pycache__"
_SEVERAL = re.compile(r"frozenset\(\{[^}]*, ")
_TEXT_OR_SET = re.compile(
    r"""'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*"|frozenset\(\{(?P<members>[^{}]*)\}\)"""
)


@cache
def describe_whole_tool() -> str:
    """Return a digest of all that makes pages: code, words, templates, fonts and libraries."""
    engines = (f"{name} {version(name)}" for name in _ENGINES)
    folders = (Path(builder.__file__).parent, find_templates())
    files = (path for folder in folders for path in sorted(folder.rglob("*")))
    contents = (
        hashlib.sha256(path.read_bytes()).hexdigest()
        for path in files
        if path.is_file() and _LEFT_OUT not in path.parts
    )
    return digest(__version__, sys.version, *engines, *contents)


def digest(*parts: str) -> str:
    """Return one key for several texts; none of them can run into the next."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()


def spell(value: object) -> str:
    """Write a value of ours with every part of it, alike in every process.

    A set is written in an order that changes from one process to the next, so it is sorted.
    """
    spelled = repr(value)
    return _TEXT_OR_SET.sub(_sort, spelled) if _SEVERAL.search(spelled) else spelled


def spell_fields(value: object, names: Iterable[str]) -> str:
    """Write some fields of a value; faster than the whole where few of them hold sets."""
    return "\n".join(f"{name}={spell(getattr(value, name))}" for name in names)


def _sort(found: Match[str]) -> str:
    members = found["members"]
    if members is None:
        return found[0]
    return f"frozenset({{{', '.join(sorted(members.split(', ')))}}})"
