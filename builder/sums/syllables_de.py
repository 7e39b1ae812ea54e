"""Syllables of German words, by groups of vowels."""

import re
from functools import lru_cache

_NUMBERS = (1, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2)
"""Of null to neunzehn, as they are spoken."""
_PARTS = re.compile(r"[0-9]+|[a-zäöüß]+")
_GROUP = re.compile(r"[aeiouyäöü]+")
_SOUNDED = re.compile(r"aa|ee|oo|au|äu|eu|ei|ai|ey|ay|ie|.")
"""Two vowels that are one sound, longest first."""
_SPLIT_IE = re.compile(r"(?:lin|famil|fol|fer|bakter|med|stud|materi?al)ie(?=n?$)")
"""Linie, but not die; words that part them are few."""


@lru_cache(maxsize=8192)
def count_syllables_de(word: str) -> int:
    """Count the syllables of a German word, a number in digits or several parts with hyphens."""
    parts: list[str] = _PARTS.findall(word.lower())
    return max(1, sum(_count_part(part) for part in parts))


def _count_part(part: str) -> int:
    if part.isdigit():
        return _count_number(int(part)) if len(part) <= 3 else 2 * len(part)
    groups: list[str] = _GROUP.findall(re.sub(r"(?<=q)u", "", part))
    sounds = sum(len(_SOUNDED.findall(group)) for group in groups)
    return max(1, sounds + len(_SPLIT_IE.findall(part)))


def _count_number(number: int) -> int:
    hundreds, rest = divmod(number, 100)
    before = _NUMBERS[hundreds] + 2 if hundreds else 0
    if rest < len(_NUMBERS):
        return before + (_NUMBERS[rest] if rest or not hundreds else 0)
    ones = _NUMBERS[rest % 10] + 1 if rest % 10 else 0
    return before + 2 + ones
