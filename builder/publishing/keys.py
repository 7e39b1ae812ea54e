"""Values spelled to the last part, for keys of what is kept between builds."""

import re
from collections.abc import Iterable
from re import Match

_SEVERAL = re.compile(r"frozenset\(\{[^}]*, ")
_TEXT_OR_SET = re.compile(
    r"""'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*"|frozenset\(\{(?P<members>[^{}]*)\}\)"""
)


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
