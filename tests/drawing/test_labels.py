"""Labels: every language has all words, and drawings carry them."""

import pytest

from builder.course.tempo import Step, Tempo
from builder.drawing.labels import ENGLISH, labels_in
from builder.drawing.tempo_strip import draw_tempo_strip


@pytest.mark.parametrize(
    ("language", "in_breath"),
    [("en-GB", "in-breath"), ("es", "al inhalar"), ("es-MX", "al inhalar"), ("DE-at", "Einatmen")],
)
def test_a_language_has_its_words(language: str, in_breath: str) -> None:
    labels = labels_in(language)
    assert labels.in_breath == in_breath
    assert set(labels.steps) == set(Step)
    assert all((*labels.breaths, *labels.steps.values(), labels.own_pace))


def test_a_language_without_words_has_english_ones() -> None:
    assert labels_in("fr") is ENGLISH


def test_a_strip_says_its_phases_in_the_language_of_the_course() -> None:
    strip = draw_tempo_strip(Tempo(4, 4, 4, 1), 90, labels=labels_in("es"))
    for words in ("inhala 4", "retén 4", "exhala 4", "pausa"):
        assert words in strip
    assert "a tu ritmo" in draw_tempo_strip(None, labels=labels_in("es"))
