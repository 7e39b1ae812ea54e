"""How hard Spanish and German texts are, against published figures and counts by hand."""

import pytest

from builder.sums.readability import (
    AVERAGE,
    FAIRLY_EASY,
    FORMULAS_BY_LANGUAGE,
    szigriszt_ease,
    vienna_grade,
)
from builder.sums.reading_grade import count_words, split_sentences
from builder.sums.syllables_de import count_syllables_de
from builder.sums.syllables_es import count_syllables_es

# Syllables by the Real Academia's rules: strong vowels part, weak ones don't, an accent on a weak
# one parts it (Ortografía de la lengua española, 2010, II.2.2.2; from memory).
SPANISH = {
    1: "muy hay y rey buey ya tres seis",
    2: "casa día baúl aire suave guía queso leer ciudad viuda huesos lección retén agua "
    "reír caer hacia río coxis",
    3: "rodillas inhala exhala cuidado ahora guitarra oído pingüino idea apoyos poeta vacío "
    "oblicuo",
    4: "respiración aéreo increíble costillares",
}
# As dictionaries part them (Duden's rules; from memory).
GERMAN = {
    1: "die sie Knie Bauch drei",
    2: "Atem Bauer Rücken liegen Treue Schultern Pause Zwerchfell neue ruhig",
    3: "einatmen ausatmen Linie Nation beachten Qualität",
    4: "Familie Atemzüge",
}


@pytest.mark.parametrize(("count", "words"), SPANISH.items())
def test_spanish_syllables(count: int, words: str) -> None:
    assert {word: count_syllables_es(word) for word in words.split()} == dict.fromkeys(
        words.split(), count
    )


@pytest.mark.parametrize(("count", "words"), GERMAN.items())
def test_german_syllables(count: int, words: str) -> None:
    assert {word: count_syllables_de(word) for word in words.split()} == dict.fromkeys(
        words.split(), count
    )


@pytest.mark.parametrize(
    ("number", "spanish", "german"),
    [
        *(("0", 2, 1), ("4", 2, 1), ("10", 1, 1), ("12", 2, 1), ("16", 3, 2), ("18", 3, 2)),
        ("20", 2, 2),
        ("21", 3, 4),  # veintiuno, einundzwanzig
        ("24", 4, 4),
        ("29", 4, 4),
        *(("30", 2, 2), ("31", 5, 4), ("45", 6, 4), ("47", 6, 5), ("90", 3, 2)),
        ("100", 1, 3),  # cien, einhundert
        ("101", 4, 4),  # ciento uno, einhunderteins
        ("116", 5, 5),  # ciento dieciséis, einhundertsechzehn
        *(("120", 4, 5), ("145", 8, 7), ("200", 3, 3), ("500", 3, 3), ("700", 4, 4)),
        ("999", 10, 7),  # novecientos noventa y nueve, neunhundertneunundneunzig
    ],
)
def test_numbers_count_as_they_are_spoken(number: str, spanish: int, german: int) -> None:
    assert count_syllables_es(number) == spanish
    assert count_syllables_de(number) == german


def test_longer_numbers_count_two_syllables_a_digit() -> None:
    assert (count_syllables_es("2026"), count_syllables_de("2026")) == (8, 8)


def test_spanish_ease_is_szigriszts_formula() -> None:
    """Ten words, two sentences, 18 syllables: 206.835 - 62.3 × 1.8 - 5, worked by hand."""
    text = "La mano sube despacio. El vientre queda siempre muy blando."
    counts = count_words(text, count_syllables_es)
    assert (counts.words, counts.sentences, counts.syllables) == (10, 2, 18)
    assert szigriszt_ease(text) == pytest.approx(206.835 - 112.14 - 5)


def test_the_bounds_are_those_of_the_scale_for_patients() -> None:
    """Barrio-Cantalejo and others 2008: normal 55 to 65, bastante fácil 65 to 80."""
    assert (AVERAGE, FAIRLY_EASY) == (55, 65)


def test_german_grade_is_the_first_vienna_formula() -> None:
    """Bamberger and Vanecek 1984; shares counted by hand: 1 of 8 words with three syllables, two
    with seven letters or more, four with one syllable, one sentence."""
    text = "Lege beide Hände flach auf den Bauch, einatmen."
    many, length, long, single = 100 / 8, 8, 100 / 8, 400 / 8
    expected = 0.1935 * many + 0.1672 * length + 0.1297 * long - 0.0327 * single - 0.875
    assert vienna_grade(text) == pytest.approx(expected)


def test_german_shares_are_of_words_and_words_are_a_sentence() -> None:
    """Nine words in three sentences; one of seven letters, six of one syllable, none of three."""
    text = "Das Knie bleibt nun ruhig. Atme jetzt aus. Schlafe."
    expected = 0.1672 * 3 + 0.1297 * 100 / 9 - 0.0327 * 100 * 6 / 9 - 0.875
    assert vienna_grade(text) == pytest.approx(expected)


def test_spanish_sentences_may_begin_and_end_with_their_own_signs() -> None:
    text = "«Respira». ¿Sube el vientre? ¡Bien! Ábrelo «así». Él baja."
    assert split_sentences(text) == (
        "«Respira».",
        "¿Sube el vientre?",
        "¡Bien!",
        "Ábrelo «así».",
        "Él baja.",
    )


@pytest.mark.parametrize("language", FORMULAS_BY_LANGUAGE)
def test_easy_texts_are_easier_than_hard_ones(language: str) -> None:
    formula = FORMULAS_BY_LANGUAGE[language]
    easy = formula.score("Da. So. Mi. Ja.")
    hard = formula.score(
        "Unverantwortlicherweise internationalisieren Organisationen kontinuierlich."
    )
    assert (easy > hard) == formula.is_ease
