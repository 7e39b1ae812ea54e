"""Reading grade of English text: words, sentences and syllables, and the two formulas.

Flesch, Journal of Applied Psychology 32:221 (1948), for the reading ease; Kincaid and others,
Naval Technical Training Command report 8-75 (1975), for the grade.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from builder.sums.citation import Citation
from builder.sums.syllables import count_syllables

FLESCH = Citation(
    "flesch-1948",
    "Flesch",
    1948,
    "reading ease from words, sentences and syllables",
    "Journal of Applied Psychology 32:221",
)
KINCAID = Citation(
    "kincaid-1975",
    "Kincaid and others",
    1975,
    "school grade from words, sentences and syllables",
    "Naval Technical Training Command report 8-75",
)
WEISS = Citation(
    "weiss-2007",
    "Weiss",
    2007,
    "text for patients at grade 6 or under",
    "American Medical Association, manual on health literacy",
)


@dataclass(frozen=True, slots=True)
class Counts:
    """How many words, sentences and syllables a text has."""

    words: int
    sentences: int
    syllables: int

    def __str__(self) -> str:
        return f"{self.words} words, {self.sentences} sentences, {self.syllables} syllables"


_WORD = re.compile(r"[^\W_]+(?:[-'’.,][^\W_]+)*")
_MARKUP = re.compile(
    r"<[^>]*>"  # tags
    r"|(?<=\])\([^)]*\)"  # targets of links
    r"|[*_`#|\[\]]+"
)
_ITEM = re.compile(r"^[ \t]*(?:[-*+]|[0-9]+[.)])[ \t]+", re.MULTILINE)
_BLOCK_END = re.compile(r"\n[ \t]*\n\s*")
_SENTENCE_END = re.compile(
    r"(?<=[.!?…])[\"'”’»“)]*\s+(?=[\"'“‘„«(¿¡]*[A-ZÀ-ÖØ-Þ0-9])|(?<=[.!?…][»”’])\s+(?=[\"«„(¿¡]*[A-ZÀ-ÖØ-Þ0-9])"
)
_SHORT_FORM = re.compile(r"\b(?:e\.g|i\.e|etc|approx|Dr|Mr|Mrs|Ms|St|vs|No)\.(?=\s)")


def count_words(text: str, count: Callable[[str], int] = count_syllables) -> Counts:
    """Count a text of inline or block Markdown; each list item ends a sentence."""
    sentences = split_sentences(text)
    words = [word for sentence in sentences for word in find_words(sentence)]
    return Counts(len(words), len(sentences), sum(count(word) for word in words))


def split_sentences(text: str) -> tuple[str, ...]:
    """Split a text into sentences; a paragraph or list item ends one without a full stop too."""
    separated = _ITEM.sub("\n\n", text)
    plain = _MARKUP.sub("", separated)
    parts: list[str] = []
    for block in _BLOCK_END.split(plain):
        unstopped = _SHORT_FORM.sub(lambda found: found.group().replace(".", ""), block)
        parts.extend(" ".join(part.split()) for part in _SENTENCE_END.split(unstopped))
    return tuple(part for part in parts if _WORD.search(part))


def find_words(sentence: str) -> tuple[str, ...]:
    """Return the words of a sentence; parts with hyphens are one word, as Flesch has it."""
    return tuple(_WORD.findall(sentence))


def flesch_reading_ease(counts: Counts) -> float:
    """Return the reading ease, about 0 to 100, high for easy text; the text must have words."""
    length = counts.words / counts.sentences
    return 206.835 - 1.015 * length - 84.6 * counts.syllables / counts.words


def flesch_kincaid_grade(counts: Counts) -> float:
    """Return the school grade in the US that can read a text; the text must have words."""
    length = counts.words / counts.sentences
    return 0.39 * length + 11.8 * counts.syllables / counts.words - 15.59
