"""Digests of texts and values: equal for the same content in every process, on every machine."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, time
from enum import Enum

_PLAIN = (type(None), bool, int, float, str, bytes, date, time, Enum)
_NO_ORDER = "frozenset({"
_NO_CONTENT = " at 0x"
"""How Python writes a thing of which it tells only where it lies."""


def digest(*parts: str) -> str:
    """Return one digest of several texts; none of them can run into the next."""
    lengths = "".join(f"{len(part)}:{part}" for part in parts)
    return hashlib.sha256(lengths.encode("utf-8", "surrogatepass")).hexdigest()


def digest_value(value: object) -> str:
    """Return a digest of a value and all in it, as ``spell`` tells it."""
    return digest(spell(value))


def spell(value: object) -> str:
    """Write a value with every part of it as Python would, and sets in an order of their own.

    Fields of dataclasses count by name, mappings in their order. What a value worked out for itself
    later (a cached property) doesn't count. Raises TypeError for a kind of value of which Python
    tells nothing but its place, so that none is ever left out.
    """
    text = repr(value)  # fifty times as fast as to go through all parts
    return _spell_parts(value) if _NO_ORDER in text or _NO_CONTENT in text else text


def spell_fields(value: object, names: Iterable[str]) -> str:
    """Write some fields of a value, each on a line of its own."""
    return "\n".join(f"{name}={spell(getattr(value, name))}" for name in names)


def _spell_parts(value: object) -> str:
    """Write a value from its parts, letter for letter as Python would."""
    kind = type(value).__qualname__
    if isinstance(value, _PLAIN):
        return repr(value)
    if isinstance(value, frozenset):
        return f"{kind}({{{', '.join(sorted(map(spell, value)))}}})"
    if is_dataclass(value):
        names = (field.name for field in fields(value))
        return f"{kind}({', '.join(f'{name}={spell(getattr(value, name))}' for name in names)})"
    if isinstance(value, tuple):
        return f"({', '.join(map(spell, value))}{',' * (len(value) == 1)})"
    if isinstance(value, list):
        return f"[{', '.join(map(spell, value))}]"
    if isinstance(value, Mapping):
        items = ", ".join(f"{spell(key)}: {spell(part)}" for key, part in value.items())
        return f"{{{items}}}" if isinstance(value, dict) else f"{kind}({{{items}}})"
    raise TypeError(f"no digest is known for a {kind}")
