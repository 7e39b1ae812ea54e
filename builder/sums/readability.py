"""How hard a text is to read, by the published formula of its language.

Szigriszt Pazos, Sistemas predictivos de legibilidad del mensaje escrito, Madrid (1993), for
Spanish, read by the scale of Barrio-Cantalejo and others, Anales del Sistema Sanitario de Navarra
31(2):135 (2008); Bamberger and Vanecek, Lesen - Verstehen - Lernen - Schreiben, Vienna (1984), the
first Wiener Sachtextformel, for German. English has Kincaid's grade.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from builder.sums.citation import Citation
from builder.sums.reading_grade import (
    KINCAID,
    count_words,
    find_words,
    flesch_kincaid_grade,
    split_sentences,
)
from builder.sums.syllables_de import count_syllables_de
from builder.sums.syllables_es import count_syllables_es

SZIGRISZT = Citation(
    "szigriszt-1993",
    "Szigriszt Pazos",
    1993,
    "reading ease of Spanish from words, sentences and syllables",
    "Sistemas predictivos de legibilidad del mensaje escrito, Universidad Complutense de Madrid",
)
BARRIO = Citation(
    "barrio-2008",
    "Barrio-Cantalejo and others",
    2008,
    "what the reading ease means: fairly easy from 65, average from 55",
    "Anales del Sistema Sanitario de Navarra 31(2):135",
)
BAMBERGER = Citation(
    "bamberger-1984",
    "Bamberger and Vanecek",
    1984,
    "school grade of German texts from long, many-syllabled and one-syllabled words",
    "Lesen - Verstehen - Lernen - Schreiben, Jugend und Volk, Vienna",
)
FAIRLY_EASY, AVERAGE = 65.0, 55.0
"""Lower bounds of the reading ease of "bastante fácil" and "normal" (Barrio-Cantalejo 2008)."""
_LONG_LETTERS = 7
_MANY_SYLLABLES = 3


@dataclass(frozen=True, slots=True)
class Formula:
    """A published measure of how hard a text of a language is."""

    name: str
    source: Citation
    score: Callable[[str], float]
    """Of a text that has words."""
    describe: Callable[[str], str]
    """The counts behind it, in words."""
    is_ease: bool = False
    """True where a higher number is easier."""


def szigriszt_ease(text: str) -> float:
    """Return the reading ease of a Spanish text with words: from 0, hard, to 100, easy."""
    counts = count_words(text, count_syllables_es)
    return 206.835 - 62.3 * counts.syllables / counts.words - counts.words / counts.sentences


def vienna_grade(text: str) -> float:
    """Return the school grade that can read a German text with words, mostly 4 to 15."""
    many, length, long, single = _count_shares(text)
    return 0.1935 * many + 0.1672 * length + 0.1297 * long - 0.0327 * single - 0.875


def _count_shares(text: str) -> tuple[float, float, float, float]:
    """Return percent of many-syllabled words, words a sentence, percent of long and of short."""
    sentences = split_sentences(text)
    words = [word for sentence in sentences for word in find_words(sentence)]
    syllables = [count_syllables_de(word) for word in words]
    percent = 100 / len(words)
    return (
        percent * sum(count >= _MANY_SYLLABLES for count in syllables),
        len(words) / len(sentences),
        percent * sum(len(word) >= _LONG_LETTERS for word in words),
        percent * sum(count == 1 for count in syllables),
    )


def _describe_shares(text: str) -> str:
    many, length, long, _ = _count_shares(text)
    return (
        f"{length:.1f} words a sentence, {long:.0f} % with seven letters or more, "
        f"{many:.0f} % with three syllables or more"
    )


FORMULAS_BY_LANGUAGE: Mapping[str, Formula] = {
    "en": Formula(
        "reading grade",
        KINCAID,
        lambda text: flesch_kincaid_grade(count_words(text)),
        lambda text: str(count_words(text)),
    ),
    "es": Formula(
        "reading ease",
        SZIGRISZT,
        szigriszt_ease,
        lambda text: str(count_words(text, count_syllables_es)),
        is_ease=True,
    ),
    "de": Formula("reading grade", BAMBERGER, vienna_grade, _describe_shares),
}
"""By the language without country. Other languages have none here, and aren't graded."""
