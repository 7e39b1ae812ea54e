"""Frozen values as JSON objects with their fields' names, and back, believing nothing.

A finished site may come from anybody: what doesn't fit a type is refused with its place.
"""

import json
import types
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from math import isfinite
from typing import Any, get_args, get_origin, get_type_hints

from builder.errors import InvalidValueError

_CURE = "build the site again"


def write_form(value: Any) -> Any:
    """Return a value as what JSON can hold."""
    if is_dataclass(value):
        return {field.name: write_form(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {key: write_form(part) for key, part in value.items()}
    if isinstance(value, tuple):
        return [write_form(part) for part in value]
    return value.value if isinstance(value, Enum) else value


def parse_json(text: str) -> Any:
    """Return what a text says as JSON; refused are doubled names and numbers that are none.

    Raises InvalidValueError.
    """
    try:
        return json.loads(text, object_pairs_hook=_take_once, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as error:
        raise InvalidValueError("it is no JSON that can be read", _CURE) from error


def read_form(kind: Any, value: Any, place: str = "") -> Any:
    """Make a value of a type from what JSON held; ``place`` says where that stood.

    Raises InvalidValueError where it doesn't fit.
    """
    origin, inner = get_origin(kind), get_args(kind)
    if is_dataclass(kind):
        return _read_fields(kind, _expect(value, dict, place), place)
    if origin is types.UnionType:
        return None if value is None else read_form(inner[0], value, place)
    if origin is tuple:
        parts = enumerate(_expect(value, list, place))
        return tuple(read_form(inner[0], part, f"{place}[{number}]") for number, part in parts)
    if origin is Mapping:
        parts = _expect(value, dict, place).items()
        return {key: read_form(inner[1], part, f"{place}.{key}") for key, part in parts}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return _read_member(kind, value, place)
    return _read_scalar(kind, value, place)


def _read_fields(kind: Any, values: dict[str, Any], place: str) -> Any:
    hints, needed = _describe(kind)
    unknown = sorted(values.keys() - hints.keys())
    missing = sorted(needed - values.keys())
    if unknown or missing:
        name, what = (unknown or missing)[0], "isn't known" if unknown else "is missing"
        raise InvalidValueError(f'"{place}.{name}" {what}', _CURE)
    parts = {name: read_form(hints[name], part, f"{place}.{name}") for name, part in values.items()}
    try:
        return kind(**parts)
    except ValueError as error:
        raise InvalidValueError(f'"{place}" can\'t be: {error}', _CURE) from error


@cache
def _describe(kind: Any) -> tuple[dict[str, Any], frozenset[str]]:
    """Return the types of a dataclass's fields, and which of them must be given."""
    names = {field.name: field.default is MISSING for field in fields(kind)}
    hints = get_type_hints(kind)
    return {name: hints[name] for name in names}, frozenset(n for n, must in names.items() if must)


def _read_member(kind: type[Enum], value: Any, place: str) -> Enum:
    for member in kind:
        if member.value == value:
            return member
    raise InvalidValueError(f'"{place}" has no known word', _CURE)


def _read_scalar(kind: Any, value: Any, place: str) -> Any:
    if kind is float:
        number = _expect(value, (int, float), place)
        if not isfinite(number):
            raise InvalidValueError(f'"{place}" is no number', _CURE)
        return float(number)
    return _expect(value, kind, place)


def _expect(value: Any, kind: Any, place: str) -> Any:
    is_truth = isinstance(value, bool) and kind is not bool  # which Python takes for a number
    if is_truth or not isinstance(value, kind):
        raise InvalidValueError(f'"{place}" is of another kind', _CURE)
    return value


def _take_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Make an object; readers differ on which of two equal names counts, so neither may."""
    values = dict(pairs)
    if len(values) != len(pairs):
        raise ValueError("a name is doubled")
    return values


def _refuse_constant(name: str) -> Iterator[None]:
    raise ValueError(f"{name} is no number of JSON")
