"""Digests of values: equal for the same content in every process, on every machine."""

import hashlib
from collections.abc import Iterator, Mapping, Set
from dataclasses import fields, is_dataclass
from datetime import date, time
from enum import Enum

_PLAIN = (type(None), bool, int, float, str, bytes, date, time)


def digest(*parts: str) -> str:
    """Return one digest of several texts; none of them can run into the next."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()


def digest_value(value: object) -> str:
    """Return a digest of a value and all in it.

    Fields of dataclasses count by name, mappings in their order, sets without one. What a value
    worked out for itself later (a cached property) doesn't count. Raises TypeError for a kind of
    value that isn't known here, so that none is ever left out.
    """
    hasher = hashlib.sha256()
    for piece in _spell(value):
        hasher.update(piece)
    return hasher.hexdigest()


def _spell(value: object) -> Iterator[bytes]:
    """Yield a value as bytes from which no other value could be read."""
    kind = type(value).__qualname__
    if isinstance(value, Enum):
        yield _frame(kind, value.name)
    elif isinstance(value, str | bytes):
        yield _frame(kind, value if isinstance(value, bytes) else value.encode())
    elif isinstance(value, _PLAIN):
        yield _frame(kind, repr(value))
    elif isinstance(value, Set):
        yield _frame("set", " ".join(sorted(map(digest_value, value))))
    else:
        yield from _spell_parts(kind, value)


def _spell_parts(kind: str, value: object) -> Iterator[bytes]:
    if is_dataclass(value):
        names = [field.name for field in fields(value)]
        yield _frame(kind, " ".join(names))
        parts = [getattr(value, name) for name in names]
    elif isinstance(value, Mapping):
        yield _frame("mapping", str(len(value)))
        parts = [part for item in value.items() for part in item]
    elif isinstance(value, tuple | list):
        yield _frame("row", str(len(value)))
        parts = list(value)
    else:
        raise TypeError(f"no digest is known for a {kind}")
    for part in parts:
        yield from _spell(part)


def _frame(kind: str, content: str | bytes) -> bytes:
    content = content if isinstance(content, bytes) else content.encode()
    return f"{kind}:{len(content)}:".encode() + content
