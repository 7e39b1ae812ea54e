"""Numbers and sides in a text of any language, to hold a translation against its original."""

import re
from collections import Counter
from collections.abc import Mapping

_FIGURE = re.compile(r"\d+(?:[.,]\d+)?|[½¼¾]")
_SIDES: Mapping[str, tuple[re.Pattern[str], re.Pattern[str]]] = {
    "en": (
        re.compile(r"\bleft\b", re.I),
        re.compile(r"\bright(?=[ -](?!now|away|time)|[.,;:]|$)", re.I),
    ),
    "es": (re.compile(r"\bizquierd[oa]s?\b", re.I), re.compile(r"\bderech[oa]s?\b", re.I)),
    "de": (re.compile(r"\blink\w*\b", re.I), re.compile(r"\brecht(?:e|er|en|es|em|s)\b", re.I)),
}
"""Left and right by the language without country."""


def list_figures(text: str) -> Counter[str]:
    """Return the numbers that are written in figures; a decimal comma is a point."""
    return Counter(number.replace(",", ".") for number in _FIGURE.findall(text))


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
