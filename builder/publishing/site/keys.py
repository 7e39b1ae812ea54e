"""Keys of what a site keeps between builds: the tool, and what it stands on."""

import hashlib
import sys
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import builder
from builder import __version__
from builder.resources import find_templates

_ENGINES = (
    *("mkdocs", "mkdocs-material", "mkdocs-material-extensions", "markdown", "jinja2"),
    *("markupsafe", "pyyaml", "pymdown-extensions", "pygments", "backrefs", "selectolax"),
    *("babel", "jieba"),
)


def digest(*parts: str) -> str:
    """Return the digest of texts in their order; where one ends and the next begins counts."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()


def describe_tool() -> str:
    """Return a digest of the whole tool with its templates and the libraries under it.

    A preview goes on with the code that it began with, but reads templates anew for each build.
    """
    return digest(_describe_code(), *_digest_files(find_templates()))


@cache
def _describe_code() -> str:
    engines = (f"{name} {_find_version(name)}" for name in _ENGINES)
    code = _digest_files(Path(builder.__file__).parent, "*.py")
    return digest(__version__, sys.version, *engines, *code)


def _find_version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "none"


def _digest_files(folder: Path, pattern: str = "*") -> Iterator[str]:
    for path in sorted(folder.rglob(pattern)):
        if path.is_file():
            yield path.relative_to(folder).as_posix()
            yield hashlib.sha256(path.read_bytes()).hexdigest()
