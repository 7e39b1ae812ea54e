"""Numbers and sides in a text of any language, to hold a translation against its original."""

import re
from collections import Counter
from collections.abc import Mapping

_NAMED = "3 4 5 6 7 8 9 10 11 12 15 20 30 40 50 60"
_FIGURE = re.compile(r"\d+(?:[.,]\d+)?|[½¼¾]")
_WORDS: Mapping[str, Mapping[str, str]] = {
    language: dict(zip(words.split(), _NAMED.split(), strict=True))
    for language, words in {
        "en": "three four five six seven eight nine ten eleven twelve fifteen twenty thirty forty "
        "fifty sixty",
        "es": "tres cuatro cinco seis siete ocho nueve diez once doce quince veinte treinta "
        "cuarenta cincuenta sesenta",
        "de": "drei vier fünf sechs sieben acht neun zehn elf zwölf fünfzehn zwanzig dreißig "
        "vierzig fünfzig sechzig",
    }.items()
}
"""Words for numbers by the language without country. One and two are left out: languages say them
where others say both, a or again."""
_ON_ALL_FOURS = re.compile(r"\ball fours\b|\bcuatro (?:apoyos|patas)\b|\ballen vieren\b")
"""A position, and no number that anybody counts."""
_WORD = re.compile(r"[^\W\d_]+")
_SIDES: Mapping[str, tuple[re.Pattern[str], re.Pattern[str]]] = {
    "en": (
        re.compile(r"\bleft\b", re.I),
        re.compile(r"\bright(?=[ -](?!now|away|time)|[.,;:]|$)", re.I),
    ),
    "es": (re.compile(r"\bizquierd[oa]s?\b", re.I), re.compile(r"\bderech[oa]s?\b", re.I)),
    "de": (re.compile(r"\blink\w*\b", re.I), re.compile(r"\brecht(?:e|er|en|es|em|s)\b", re.I)),
}
"""Left and right by the language without country."""


def list_numbers(text: str, language: str, *, with_words: bool) -> Counter[str]:
    """Return the numbers of a text as figures; a decimal comma is a point."""
    found = Counter(number.replace(",", ".") for number in _FIGURE.findall(text))
    known = _WORDS.get(language, {}) if with_words else {}
    words = _WORD.findall(_ON_ALL_FOURS.sub(" ", text.casefold()))
    found.update(known[word] for word in words if word in known)
    return found


def knows_numbers(language: str) -> bool:
    """Tell whether numbers in words are known in a language without country."""
    return language in _WORDS


def swaps_sides(before: str, after: str, languages: tuple[str, str]) -> bool:
    """Tell whether a text says left where the other says right.

    A side that is told less often is no fault: another language may say it once for both.
    """
    if not all(language in _SIDES for language in languages):
        return False
    (left, right), (other_left, other_right) = (
        tuple(len(pattern.findall(text)) for pattern in _SIDES[language])
        for text, language in zip((before, after), languages, strict=True)
    )
    return (other_left - left) * (other_right - right) < 0
