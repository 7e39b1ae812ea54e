"""Names: the nearest known one for a name that nothing has."""

from collections.abc import Iterable
from difflib import get_close_matches

_MOST_OFFERED = 12
_LONGEST_NAME = 100
"""What is longer was never a name; to look for one near it takes the product of both lengths."""


def suggest(name: str, known: Iterable[str]) -> str:
    """Return ``did you mean "…"?`` as an imperative, or nothing where no name is near."""
    if len(name) > _LONGEST_NAME:
        return ""
    names = sorted(known)
    nearest = [each for each in names if each.casefold() == name.casefold()]
    nearest = nearest or get_close_matches(name, names, n=1, cutoff=0.6)
    return f'write "{nearest[0]}" if that is meant' if nearest else ""


def offer(known: Iterable[str]) -> str:
    """Return the imperative to use a known name, with as many of them as one can read."""
    names = list(known)
    if not names:
        return "leave it out: none is known"
    more = f" or {len(names) - _MOST_OFFERED} more" if len(names) > _MOST_OFFERED else ""
    return f"use one of {', '.join(names[:_MOST_OFFERED])}{more}"
