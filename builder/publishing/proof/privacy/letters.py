"""Texts brought down to what is compared: accents, capitals, spaces and escapes don't count."""

import html
import re
import unicodedata
from dataclasses import dataclass
from functools import cached_property
from urllib.parse import unquote

_UNSEEN = re.compile(
    "[\u0300-\u036f\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe00-\ufe0f\ufeff]"
)
"""Accents once they are apart from their letters, and signs without any width."""
_WHOLE_SIGNS = {"ł": "l", "đ": "d", "ø": "o", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d"}
"""Letters that Unicode doesn't take apart, as people write them where they lack the key."""
_WHOLE_SIGN = re.compile(f"[{''.join(_WHOLE_SIGNS)}]")
_TWO_LETTERS = {"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe"}
"""The other way of writing them without the key, in German and the north."""
_WORD = re.compile(r"[^\W_]+")
_UNSPACED = re.compile("[\u0e00-\u0e7f\u3040-\u30ff\u3400-\u9fff\uac00-\ud7af]+")
"""Scripts that set no space between words, or join small words on, as Korean does."""
_DIGITS = "0123456789"
_ESCAPE = re.compile(r"\\(?:u\{?([0-9a-fA-F]{4})\}?|x([0-9a-fA-F]{2})|[nrtbf/\"'])")
_ROUNDS = 2
"""Signs are written by number twice where one text stands in another."""
_TAG = re.compile(r"<[/a-zA-Z][^>]*>")
_REMARK = re.compile(r"<!--.*?-->", re.DOTALL)
_VALUE = re.compile(r"""=\s*("[^"]*"|'[^']*'|[^\s>"']+)""")


@dataclass(frozen=True)
class Folded:
    """A text as its words, small letters without accents all."""

    words: tuple[str, ...]

    @cached_property
    def distinct(self) -> frozenset[str]:
        """Return each word once, and without the digits that files' names put around it."""
        words = frozenset(self.words)
        return words.union(word.strip(_DIGITS) for word in words if not word.isalpha())

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
        small = unicodedata.normalize("NFC", small)  # Korean letters are put together again
    return Folded(tuple(_WORD.findall(small)))


def fold_spellings(name: str) -> tuple[Folded, ...]:
    """Bring a name down to what is compared, in each way in which people write it."""
    small = unicodedata.normalize("NFC", name.casefold())
    longer = "".join(_TWO_LETTERS.get(sign, sign) for sign in small)
    return tuple(dict.fromkeys((fold(small), fold(longer))))


def is_unspaced(word: str) -> bool:
    """Tell whether a word is of a script in which no spaces stand between words."""
    return _UNSPACED.fullmatch(word) is not None


def undo_escapes(text: str) -> str:
    """Write out the signs that HTML, JSON, scripts and addresses write by their numbers."""
    for _ in range(_ROUNDS):
        before = text
        text = undo_slashes(text)
        if "&" in text:
            text = html.unescape(text)
        text = unquote(text) if "%" in text else text
        if text == before:
            break
    return text


def undo_slashes(text: str) -> str:
    """Write out the signs that JSON and scripts write with a backslash; breaks become spaces."""
    return _ESCAPE.sub(_write_out, text) if "\\" in text else text


def leave_tags_out(text: str) -> str:
    """Return what a text with tags says: its words, remarks, and the values of its attributes."""
    return _TAG.sub(lambda tag: f" {' '.join(_VALUE.findall(tag[0]))} ", text)


def join_across_tags(text: str) -> str:
    """Return a text as if its tags weren't there, for words that tags part."""
    return _TAG.sub("", _REMARK.sub("", text))


def _write_out(found: re.Match[str]) -> str:
    number = found[1] or found[2]
    return chr(int(number, 16)) if number else " "
