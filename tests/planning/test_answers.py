"""Answers that a coach's records give to the placement table, and where each comes from."""

from datetime import date

import pytest

from builder.planning.answers import FoundAnswer, Origin
from builder.planning.placing import find_answers
from builder.records.result import Result
from tests.planning.starter import TODAY, make_person, make_result, read_starter

SEPTEMBER, OCTOBER = date(2026, 9, 7), date(2026, 10, 5)


def find(
    *results: Result, ready: tuple[str, ...] = (), conditions: tuple[str, ...] = ()
) -> dict[str, FoundAnswer]:
    answers = find_answers(read_starter(), make_person(*conditions), results, ready)
    return {answer.question_id: answer for answer in answers.found}


def test_nobody_unknown_is_taken_for_trained() -> None:
    assert find() == {"known": FoundAnswer("known", "new", Origin.OTHERWISE)}
    answers = find_answers(read_starter(), make_person(), (), ())
    assert answers.missing == ("floor", "kneel", "sitting", "lying", "sides", "hold")


@pytest.mark.parametrize(
    ("ready", "answer", "lesson"),
    [
        (("belly-breath", "all-round-breath"), "new", ""),
        (("full-exhale",), "breath", "full-exhale"),
        (("full-exhale", "tail-tuck"), "breath", "full-exhale"),
        (("brace-and-breathe", "full-exhale"), "brace", "brace-and-breathe"),
    ],
)
def test_the_last_lesson_that_somebody_is_ready_in_counts(
    ready: tuple[str, ...], answer: str, lesson: str
) -> None:
    known = find(make_result("known", "new"), ready=ready)["known"]
    assert (known.value, known.lesson_id) == (answer, lesson)


def test_what_was_written_down_answers_where_history_does_not() -> None:
    known = find(make_result("known", "breath", day=OCTOBER))["known"]
    assert known == FoundAnswer("known", "breath", Origin.RESULT, OCTOBER)


def test_the_newest_result_in_the_questions_own_lesson_answers() -> None:
    found = find(
        make_result("first-mover", "belly", "hands-check-sitting", OCTOBER),
        make_result("first-mover", "chest", "hands-check-sitting", SEPTEMBER),
        make_result("first-mover", "both", "hands-check-lying", SEPTEMBER),
        make_result("lying", "skipped", day=OCTOBER),
    )
    assert found["sitting"] == FoundAnswer("sitting", "belly", Origin.RESULT, OCTOBER)
    assert found["lying"].value == "skipped"


def test_of_one_day_the_row_written_last_counts() -> None:
    rows = [make_result("first-mover", word, "hands-check-lying") for word in ("belly", "chest")]
    assert find(*rows)["lying"].value == "chest"


@pytest.mark.parametrize(
    ("word", "answer"), [("even", "even"), ("left first", "right"), ("right first", "left")]
)
def test_the_side_that_comes_second_is_the_answer(word: str, answer: str) -> None:
    # The lesson: "The side that comes second is your slower side."
    assert find(make_result("rib-sides", word, "rib-sides-check"))["sides"].value == answer


def test_a_hold_is_the_best_of_the_newest_day() -> None:
    rows = [
        make_result("breath-hold-seconds", seconds, "comfortable-hold", day)
        for day, seconds in [(SEPTEMBER, 20), (OCTOBER, 7), (OCTOBER, 9), (OCTOBER, 8)]
    ]
    assert find(*rows)["hold"] == FoundAnswer("hold", 9, Origin.RESULT, OCTOBER)


@pytest.mark.parametrize(
    ("conditions", "recorded", "value", "origin"),
    [
        ((), "easy", "easy", Origin.RESULT),
        (("unsteady",), "", "chair", Origin.CONDITION),
        (("unsteady",), "easy", "chair", Origin.CONDITION),
        (("unsteady",), "chair", "chair", Origin.CONDITION),
        (("unsteady",), "no", "no", Origin.RESULT),
    ],
)
def test_a_condition_never_makes_an_answer_less_careful(
    conditions: tuple[str, ...], recorded: str, value: str, origin: Origin
) -> None:
    rows = [make_result("floor", recorded)] if recorded else []
    floor = find(*rows, conditions=conditions)["floor"]
    assert (floor.value, floor.origin) == (value, origin)


def test_the_answer_names_the_conditions_that_gave_it() -> None:
    kneel = find(make_result("kneel", "yes"), conditions=("sore-wrists", "hernia", "sore-knees"))
    assert kneel["kneel"].conditions == ("sore-wrists", "sore-knees")


@pytest.mark.parametrize("word", ["", "yes", "Belly", "left first"])
def test_a_word_that_is_no_answer_is_none(word: str) -> None:
    assert "lying" not in find(make_result("first-mover", word, "hands-check-lying"))


def test_a_result_of_a_later_day_is_not_known_yet() -> None:
    later = make_result("floor", "no", day=TODAY.replace(month=12))
    assert "floor" not in find(later)
