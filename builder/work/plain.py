"""Frozen values as plain data that JSON can hold, and back by the types of their fields.

What is read back makes nothing but the classes that a type names, so that a file that somebody
else wrote can run no code.
"""

import types
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from typing import Any, Union, get_args, get_origin, get_type_hints

Plain = Any
"""What JSON can hold; checked by the maker of each type."""
_Make = Callable[[Plain], Any]
_SCALARS = (str, int, float, bool, type(None))


def make_plain(value: Any) -> Plain:
    """Return a value as lists, strings and numbers; equal values give equal data."""
    kind: type = type(value)
    if kind in _SCALARS:
        return value
    if is_dataclass(value):
        parts = (make_plain(getattr(value, name)) for name in _list_fields(kind))
        return [kind.__name__, *parts]
    if isinstance(value, tuple):
        return [make_plain(part) for part in value]
    if isinstance(value, Mapping):
        return [[make_plain(key), make_plain(part)] for key, part in value.items()]
    return _make_plain_rest(value)


def _make_plain_rest(value: object) -> Plain:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, frozenset):
        return sorted(make_plain(part) for part in value)
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"a {type(value).__name__} has no plain form")


@cache
def _list_fields(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))


@cache
def find_maker(kind: Any) -> _Make:  # a type, or one with parameters
    """Return what makes values of a type from plain data; ValueError where these don't fit."""
    if kind in _SCALARS:
        return _take_as_it_is
    if kind is date:
        return date.fromisoformat
    if is_dataclass(kind):
        return _make_dataclass(kind)
    return _make_parts(kind, get_origin(kind), get_args(kind))


def _make_parts(kind: Any, origin: Any, inner: tuple[Any, ...]) -> _Make:
    if origin in (Union, types.UnionType):
        return _make_either(inner)
    if origin is tuple:
        return _make_tuple(inner)
    if origin is frozenset:
        make = find_maker(inner[0])
        return lambda plain: frozenset(map(make, plain))
    if origin is Mapping:
        key, value = map(find_maker, inner)
        return lambda plain: {key(name): value(part) for name, part in plain}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return {member.value: member for member in kind}.__getitem__
    raise TypeError(f"{kind} has no plain form")


def _take_as_it_is(plain: Plain) -> Plain:
    return plain


def _make_tuple(inner: tuple[Any, ...]) -> _Make:
    if inner[-1] is Ellipsis:
        make = find_maker(inner[0])
        if make is _take_as_it_is:
            return tuple
        return lambda plain: tuple(map(make, plain))
    makers = [find_maker(part) for part in inner]
    return lambda plain: tuple(m(part) for m, part in zip(makers, plain, strict=True))


def _make_either(inner: tuple[Any, ...]) -> _Make:
    """Tell dataclasses apart by their names; None stands for itself."""
    kinds = [part for part in inner if part is not type(None)]
    if len(kinds) == 1:
        make = find_maker(kinds[0])
        return lambda plain: None if plain is None else make(plain)
    if not all(map(is_dataclass, kinds)):
        return _take_as_it_is if set(kinds) <= set(_SCALARS) else _refuse(inner)
    makers = {part.__name__: find_maker(part) for part in kinds}
    return lambda plain: None if plain is None else makers[plain[0]](plain)


def _refuse(inner: tuple[Any, ...]) -> _Make:
    raise TypeError(f"one of {inner} can't be told from the others")


def _make_dataclass(kind: Any) -> _Make:
    hints = get_type_hints(kind)
    makers = [find_maker(hints[name]) for name in _list_fields(kind)]
    name = kind.__name__

    def make(plain: Plain) -> Any:
        if plain[0] != name:
            raise ValueError(f"a {plain[0]} is no {name}")
        return kind(*[m(part) for m, part in zip(makers, plain[1:], strict=True)])

    return make
