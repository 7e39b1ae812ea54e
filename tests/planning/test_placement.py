"""Placement: the first way that fits counts, and the browser gives the same answers."""

import random

import pytest

from builder.course.placement import Condition, Placement, Question, StrandStart, Way
from builder.planning.placement import Start, place
from tests.browser_scripts.node import run_script
from tests.planning.starter import write_table

MOVES = Question("moves", "What moves?", "", {"belly": "Belly", "chest": "Chest"})
HOLD = Question("hold", "How long?", "", {}, is_timed=True)
TABLE = Placement(
    ("You are ill",),
    (MOVES, HOLD),
    (
        StrandStart(
            "breath",
            (
                Way((Condition("moves", frozenset({"chest"})),), "belly-breath", "chest first"),
                Way((), "", "wait"),
            ),
        ),
        StrandStart(
            "tempo",
            (
                Way((Condition("hold", under_seconds=8),), "even-count", "short"),
                Way((Condition("hold", from_seconds=8, under_seconds=20),), "box", "middle"),
                Way(
                    (Condition("hold", from_seconds=20), Condition("moves", frozenset({"belly"}))),
                    "ladder",
                    "long and low",
                ),
                Way((), "even-count", "everybody"),
            ),
        ),
    ),
)


@pytest.mark.parametrize(
    ("answers", "lessons"),
    [
        ({}, ["", "even-count"]),
        ({"moves": "chest"}, ["belly-breath", "even-count"]),
        ({"hold": 7.99}, ["", "even-count"]),
        ({"hold": 8}, ["", "box"]),
        ({"hold": 20, "moves": "chest"}, ["belly-breath", "even-count"]),
        ({"hold": 20, "moves": "belly"}, ["", "ladder"]),
        ({"hold": "belly", "moves": 3}, ["", "even-count"]),
    ],
)
def test_the_first_way_that_fits_counts(
    answers: dict[str, str | float], lessons: list[str]
) -> None:
    assert [start.lesson_id for start in place(TABLE, answers, asks_first=False)] == lessons


def test_the_reason_comes_along() -> None:
    (first, second) = place(TABLE, {"hold": 3}, asks_first=False)
    assert first == Start("breath", "", "wait")
    assert second == Start("tempo", "even-count", "short")


def test_who_asks_a_clinician_first_gets_no_lesson() -> None:
    assert place(TABLE, {"moves": "chest", "hold": 30}, asks_first=True) == ()


def test_the_browser_gives_the_same_starts() -> None:
    chance = random.Random(42)  # noqa: S311  # the same cases every time
    tables = [_make_table(chance) for _ in range(60)]
    cases = [
        (table, _make_answers(chance), chance.random() < 0.1) for table in tables for _ in "abcde"
    ]
    given = [
        {"starts": write_table(table), "answers": answers, "first": first}
        for table, answers, first in cases
    ]
    code = "return given.map((c) => globalThis.tempoleaf.place(c.starts, c.answers, c.first));"
    theirs = run_script(("placement.js",), code, given)
    ours = [
        [
            {"strand": start.strand_id, "lesson": start.lesson_id, "why": start.why}
            for start in place(table, answers, asks_first=first)
        ]
        for table, answers, first in cases
    ]
    assert theirs == ours


def _make_table(chance: random.Random) -> Placement:
    def condition() -> Condition:
        if chance.random() < 0.5:
            names = frozenset(chance.sample(["belly", "chest", "both"], chance.randint(1, 2)))
            return Condition("moves", names)
        bounds = chance.choice([(None, 8.0), (8.0, None), (5.0, 12.5)])
        return Condition("hold", from_seconds=bounds[0], under_seconds=bounds[1])

    def way() -> Way:
        conditions = tuple(condition() for _ in range(chance.randint(1, 2)))
        return Way(conditions, chance.choice(["one", "two", ""]), chance.choice("abc"))

    starts = tuple(
        StrandStart(name, (*(way() for _ in range(chance.randint(0, 4))), Way((), "last", "z")))
        for name in ("breath", "tempo")
    )
    return Placement(("ill",), (MOVES, HOLD), starts)


def _make_answers(chance: random.Random) -> dict[str, str | float]:
    answers: dict[str, str | float] = {}
    if chance.random() < 0.8:
        answers["moves"] = chance.choice(["belly", "chest", "both"])
    if chance.random() < 0.8:
        answers["hold"] = chance.choice([3, 5, 7.99, 8, 12, 12.5, 60])
    return answers
