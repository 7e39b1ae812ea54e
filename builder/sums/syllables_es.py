"""Syllables of Spanish words, by the rules of its spelling."""

import re
from functools import lru_cache

_NUMBERS = (
    *(2, 2, 1, 1, 2, 2, 1, 2, 2, 2),
    *(1, 2, 2, 2, 3, 2, 3, 4, 3, 4),
    *(2, 3, 3, 3, 4, 4, 3, 4, 3, 4),
)
"""Of cero to veintinueve, as they are spoken."""
_TENS = (0, 0, 0, 2, 3, 3, 3, 3, 3, 3)
"""Of treinta to noventa, by the digit."""
_HUNDRED = 100
_HUNDREDS = (0, 2, 3, 3, 4, 3, 3, 4, 4, 4)
"""Of ciento to novecientos, by the digit; a hundred alone is cien."""
_PARTS = re.compile(r"[0-9]+|[a-záéíóúüñ]+")
_SILENT = re.compile(r"(?<=q)u(?=[eiéí])|(?<=g)u(?=[eiéí])")
_NUCLEUS = re.compile(r"[iuü]?[aeoáéó][iuüy]?|[íú]|[iuü]+|(?<![a-z])y(?![a-z])")
"""A strong vowel with the weak ones beside it, a weak one with an accent, or weak ones alone.

An accent on a weak vowel parts it from a strong one (día, baúl)."""


@lru_cache(maxsize=8192)
def count_syllables_es(word: str) -> int:
    """Count the syllables of a Spanish word, a number in digits or several parts with hyphens."""
    parts: list[str] = _PARTS.findall(word.lower())
    return max(1, sum(_count_part(part) for part in parts))


def _count_part(part: str) -> int:
    if part.isdigit():
        return _count_number(int(part)) if len(part) <= 3 else 2 * len(part)
    return max(1, len(_NUCLEUS.findall(_SILENT.sub("", part))))


def _count_number(number: int) -> int:
    """Count the syllables of a number below a thousand."""
    if number < len(_NUMBERS):
        return _NUMBERS[number]
    if number == _HUNDRED:
        return 1
    hundreds, rest = divmod(number, _HUNDRED)
    if rest < len(_NUMBERS):
        return _HUNDREDS[hundreds] + (_NUMBERS[rest] if rest else 0)
    tens, ones = divmod(rest, 10)
    return _HUNDREDS[hundreds] + _TENS[tens] + (1 + _NUMBERS[ones] if ones else 0)
