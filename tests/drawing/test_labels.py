"""Labels: in the language of the course, and so in the drawings that carry them."""

from builder.course.tempo import Step, Tempo
from builder.drawing.labels import ENGLISH, Labels, labels_in, write_tempo
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from tests.languages import make_language, make_veiled

SPANISH = Labels(
    make_language(
        "es",
        {
            "in": "inhala",
            "hold": "retén",
            "out": "exhala",
            "pause": "pausa",
            "at your own pace": "a tu ritmo",
            "in-breath": "al inhalar",
            "out-breath": "al exhalar",
        },
    )
)


def test_every_step_has_its_word() -> None:
    assert set(ENGLISH.steps) == set(Step)
    assert list(SPANISH.steps.values()) == ["inhala", "retén", "exhala", "pausa"]
    assert SPANISH.breaths == ("al inhalar", "al exhalar")


def test_a_language_without_words_has_english_ones() -> None:
    assert labels_in("fr").breaths == ENGLISH.breaths == ("in-breath", "out-breath")
    assert labels_in("fr").own_pace == "at your own pace"


def test_a_strip_says_its_phases_in_the_language_of_the_course() -> None:
    strip = draw_tempo_strip(Tempo(4, 4, 4, 1), 90, labels=SPANISH)
    for words in ("inhala 4", "retén 4", "exhala 4", "pausa"):
        assert words in strip
    assert "a tu ritmo" in draw_tempo_strip(None, labels=SPANISH)


def test_half_seconds_have_the_sign_of_the_language() -> None:
    tempo = Tempo(5.5, 0, 5.5, 0)
    assert write_tempo(tempo, language_of("en-GB")) == "5.5-0-5.5-0" == str(tempo)
    assert write_tempo(tempo, make_veiled()) == "5,5-0-5,5-0"
    strip = draw_tempo_strip(tempo, 90, labels=SPANISH)
    assert "inhala 5,5" in strip
    assert "5.5" not in strip.partition("<desc>")[2].partition("</desc>")[0]
