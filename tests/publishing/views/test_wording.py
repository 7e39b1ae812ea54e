"""Doses, tempos, dates and lists as people say them."""

from datetime import date

import pytest

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.notice import Review
from builder.course.tempo import Tempo
from builder.course.vocabulary import Position
from builder.language import language_of
from builder.publishing.views.wording import (
    word_date,
    word_dose,
    word_position,
    word_rate,
    word_review,
    word_tempo,
    word_time,
)
from builder.sums.timing import DrillTime

ENGLISH = language_of("en-GB")


@pytest.mark.parametrize(
    ("dose", "words"),
    [
        (Dose(2, 6, 30), "2 sets of 6 breaths, 30 s rest between"),
        (Dose(1, 6, 30), "6 breaths"),
        (Dose(1, 1), "1 breath"),
        (Dose(2, 5, 60), "2 sets of 5 breaths, 1 min rest between"),
        (Dose(1, 6, 30, Sides.EACH), "6 breaths on each side, 30 s rest between"),
        (Dose(2, 6, 0, Sides.ALTERNATE), "2 sets of 6 breaths, both sides in turn"),
        (TimedDose(1), "1 minute"),
        (TimedDose(5), "5 minutes"),
    ],
)
def test_doses_are_plain(dose: Dose | TimedDose, words: str) -> None:
    assert word_dose(ENGLISH, dose) == words


def test_a_tempo_is_said_phase_by_phase_and_empty_phases_are_left_out() -> None:
    assert word_tempo(ENGLISH, Tempo(4, 1, 5.5, 0)) == "breathe in 4, pause 1, breathe out 5.5"


@pytest.mark.parametrize(
    ("tempo", "words"),
    [
        (Tempo(4, 1, 4, 1), "6 breaths a minute"),
        (Tempo(4, 0, 7, 0), "about 5.5 breaths a minute"),
        (Tempo(30, 0, 30, 0), "1 breath a minute"),
    ],
)
def test_rates_are_to_the_half_and_say_when_they_are_rounded(tempo: Tempo, words: str) -> None:
    assert word_rate(ENGLISH, tempo) == words


@pytest.mark.parametrize(("seconds", "words"), [(12, "about 1 min"), (170, "about 3 min")])
def test_times_are_whole_minutes_and_never_none(seconds: float, words: str) -> None:
    assert word_time(ENGLISH, DrillTime(10, 60, seconds, seconds, is_estimate=False)) == words


def test_a_date_reads_the_same_on_every_machine() -> None:
    assert word_date(ENGLISH, date(2026, 10, 1)) == "1 October 2026"
    assert word_review(ENGLISH, Review("course lead", date(2026, 5, 31))) == (
        "reviewed 31 May 2026 by course lead"
    )
    assert word_review(ENGLISH, None) == ""


def test_the_trade_word_of_a_position_comes_once_in_brackets() -> None:
    supine = Position("supine", "lying on the back", "supine", 0)
    sitting = Position("sitting", "sitting", "", 1)
    assert word_position(supine) == "lying on the back (supine)"
    assert word_position(sitting) == "sitting"


@pytest.mark.parametrize(
    ("names", "words"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (list("abc"), "a, b and c")],
)
def test_lists_join_as_sentences_do(names: list[str], words: str) -> None:
    assert ENGLISH.all_of(names) == words
