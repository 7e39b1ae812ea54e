"""Syllables of Spanish words, by the rules of its spelling."""

import re
from functools import lru_cache

_NUMBERS = (2, 2, 1, 1, 2, 2, 1, 2, 2, 2, 1, 2, 2, 2, 3, 2)
"""Of cero to quince, as they are spoken."""
_TENS = {20: 2, 30: 2, 40: 3, 50: 3, 60: 3, 70: 3, 80: 3, 90: 3, 100: 1}
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
    if number < len(_NUMBERS):
        return _NUMBERS[number]
    if number in _TENS:
        return _TENS[number]
    if number < 30:
        return 2 + _NUMBERS[number % 10]  # dieci-, veinti-
    if number < 100:
        return _TENS[number // 10 * 10] + 1 + _NUMBERS[number % 10]
    return 2 + _count_number(number % 100) + (_NUMBERS[number // 100] if number >= 200 else 0)
