"""Reading grade: the published formulas by counts, then our own counting."""

import pytest

from builder.sums.reading_grade import (
    Counts,
    count_words,
    flesch_kincaid_grade,
    flesch_reading_ease,
    split_sentences,
)
from builder.sums.syllables import count_syllables


# Worked by hand from the formulas as printed: Flesch 1948 (J Appl Psychol 32:221) and
# Kincaid, Fishburne, Rogers and Chissom 1975 (Naval Technical Training, report 8-75).
@pytest.mark.parametrize(
    ("words", "sentences", "syllables", "ease", "grade"),
    [
        (6, 1, 6, 116.145, -1.45),
        (13, 1, 24, 37.455, 11.265),
        (16, 1, 24, 63.695, 8.35),
        (100, 5, 140, 68.095, 8.73),
        (120, 10, 168, 76.215, 5.61),
    ],
)
def test_formulas_give_the_worked_values(
    words: int, sentences: int, syllables: int, ease: float, grade: float
) -> None:
    counts = Counts(words, sentences, syllables)
    assert flesch_reading_ease(counts) == pytest.approx(ease, abs=5e-4)
    assert flesch_kincaid_grade(counts) == pytest.approx(grade, abs=5e-4)


def test_the_usual_public_example_has_24_syllables() -> None:
    # The sentence most often used to explain the formula; 37.5 is quoted for it (from memory).
    text = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
    assert count_words(text) == Counts(13, 1, 24)


# Syllables as English dictionaries divide these words.
@pytest.mark.parametrize(
    ("syllables", "words"),
    [
        (
            1,
            "breathe breathes breathed rib knee side sides ease eased whole don't you'll aren't",
        ),
        (1, "man's knee's let's she'll you've"),
        (2, "horse's bus's coach's box's quiz's voice's bridge's brush's that'll might've"),
        (1, "slow through place tired used lie years squeeze tongue fours quick"),
        (2, "shoulder towel pillow belly inhale exhale muscle muscles gentle movement quiet lying"),
        (2, "centre fibre rhythm isn't doesn't places raises rested client patient being going"),
        (2, "minute safely careful people measure notice drawing playing player beyond people's"),
        (3, "diaphragm clinician exercise easier heavier natural area video medium notices video"),
        (3, "familiar position carrying completely together behaviour resistance"),
        (4, "experience usually continuous circumference variable society anybody everybody"),
        (5, "circumferential diaphragmatic vocabulary university"),
        (6, "responsibility physiotherapist"),
    ],
)
def test_words_have_the_syllables_of_the_dictionary(syllables: int, words: str) -> None:
    counted = {word: count_syllables(word) for word in words.split()}
    assert counted == dict.fromkeys(counted, syllables)


def test_list_items_without_a_full_stop_are_sentences() -> None:
    text = "Two things help:\n\n- A folded towel\n- Your own hand\n1. Breathe in\n2. Breathe out"
    assert split_sentences(text) == (
        "Two things help:",
        "A folded towel",
        "Your own hand",
        "Breathe in",
        "Breathe out",
    )


def test_short_forms_and_decimals_end_no_sentence() -> None:
    text = "Use a prop, e.g. Towels or pillows. Breathe for 5.5 seconds. Rest."
    assert len(split_sentences(text)) == 3


def test_markup_and_link_targets_are_no_words() -> None:
    assert count_words("Try **this** [easy way](../a-long-path/page.md).").words == 4


def test_hyphens_make_one_word() -> None:
    assert count_words("A side-rib breath at 4-1-4-1.") == Counts(5, 1, 1 + 2 + 1 + 1 + 4)


def test_an_empty_text_has_no_words() -> None:
    assert count_words("  \n\n- \n") == Counts(0, 0, 0)


@pytest.mark.parametrize(
    ("number", "syllables"),
    [
        *(
            ("0", 2),
            ("1", 1),
            ("4", 1),
            ("7", 2),
            ("11", 3),
            ("17", 3),
            ("20", 2),
            ("45", 3),
            ("70", 3),
        ),
        *(("30", 2), ("76", 4), ("77", 5), ("110", 5)),
        ("100", 3),  # one hundred
        ("105", 5),  # one hundred and five
        *(("120", 6), ("170", 7), ("200", 3), ("719", 7)),
        ("2026", 4),  # as many as digits, near enough
    ],
)
def test_numbers_count_as_they_are_spoken(number: str, syllables: int) -> None:
    assert count_syllables(number) == syllables


def test_marks_and_the_stops_of_short_forms_are_left_out_of_sentences() -> None:
    text = "Lift the **left** knee, e.g. Onto [a block](block.md). Rest."
    assert split_sentences(text) == ("Lift the left knee, eg Onto a block.", "Rest.")
