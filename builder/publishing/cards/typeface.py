"""The typeface of the cards: which signs it has."""

from collections.abc import Iterable
from functools import cache

from builder.resources import find_fonts

_FACES = ("Regular", "Semibold", "Bold", "It")


def find_lacking_signs(texts: Iterable[str]) -> tuple[str, ...]:
    """Return the signs that would print as empty boxes, in the order of their first use."""
    signs = dict.fromkeys(sign for text in texts for sign in text if not sign.isspace())
    known = _list_signs()
    return tuple(sign for sign in signs if ord(sign) not in known)


@cache
def _list_signs() -> frozenset[int]:
    """Return the code points that every shipped face has."""
    # Loaded here, because most runs have no new words to look at.
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # noqa: PLC0415

    fonts = find_fonts()
    tables = []
    for face in _FACES:
        with TTFont(fonts / f"SourceSans3-{face}.ttf", lazy=True) as font:
            tables.append(frozenset(font.getBestCmap()))
    return frozenset.intersection(*tables)
