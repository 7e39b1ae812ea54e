"""Texts brought down to what is compared: accents, capitals, spaces and escapes don't count."""

import html
import re
import unicodedata
from dataclasses import dataclass
from functools import cached_property
from urllib.parse import unquote

_UNSEEN = re.compile("[\u0300-\u036f\u00ad\u200b-\u200d\u2060\ufeff]")
"""Accents once they are apart from their letters, and signs without any width."""
_WHOLE_SIGNS = {"ł": "l", "đ": "d", "ø": "o", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d"}
"""Letters that Unicode doesn't take apart, as people write them where they lack the key."""
_WHOLE_SIGN = re.compile(f"[{''.join(_WHOLE_SIGNS)}]")
_WORD = re.compile(r"[^\W_]+")
_ESCAPE = re.compile(r"\\u([0-9a-fA-F]{4})")
_TAG = re.compile(r"<[!/?a-zA-Z][^>]*>")
_VALUE = re.compile(r"""=\s*("[^"]*"|'[^']*'|[^\s>"']+)""")


@dataclass(frozen=True)
class Folded:
    """A text as its words, small letters without accents all."""

    words: tuple[str, ...]

    @cached_property
    def distinct(self) -> frozenset[str]:
        """Return each word once."""
        return frozenset(self.words)

    @cached_property
    def letters(self) -> str:
        """Return all letters and digits in one row, so that no break parts what is looked for."""
        return "".join(self.words)

    def has_row(self, row: tuple[str, ...]) -> bool:
        """Tell whether some words stand one after the other."""
        return self.distinct.issuperset(row) and any(True for _ in self.list_starts(row))

    def list_starts(self, row: tuple[str, ...]) -> list[int]:
        """Return where such a row of words begins."""
        if not row or not self.distinct.issuperset(row):
            return []
        words, size = self.words, len(row)
        return [
            at for at, word in enumerate(words) if word == row[0] and words[at : at + size] == row
        ]


def fold(text: str) -> Folded:
    """Bring a text down to what is compared."""
    small = text.casefold()
    if not small.isascii():  # most texts are, and this takes ten times as long
        small = _UNSEEN.sub("", unicodedata.normalize("NFKD", small).casefold())
        small = _WHOLE_SIGN.sub(lambda sign: _WHOLE_SIGNS[sign[0]], small)
    return Folded(tuple(_WORD.findall(small)))


def undo_escapes(text: str) -> str:
    """Write out the signs that HTML, JSON and addresses write by their numbers."""
    if "\\u" in text:
        text = _ESCAPE.sub(lambda found: chr(int(found[1], 16)), text)
    if "&" in text:
        text = html.unescape(text)
    return unquote(text) if "%" in text else text


def leave_tags_out(text: str) -> str:
    """Return what a text with tags says: its words, and the values of its attributes."""
    return _TAG.sub(lambda tag: f" {' '.join(_VALUE.findall(tag[0]))} ", text)


def join_across_tags(text: str) -> str:
    """Return a text as if its tags weren't there, for words that tags part."""
    return _TAG.sub("", text)
