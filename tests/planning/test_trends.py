"""Trends: a change beyond scatter, like compared with like.

Holds: Trembach and Zabolotskikh 2017 (6 ± 4 %, so from 20 %, ours). Chest expansion: Bockenhauer
and others 2007 (0.6 cm). Gaps: ours.
"""

import pytest

from builder.planning.trends import Change, Trend, find_trends
from builder.records.result import Result, Side
from tests.planning.rows import on
from tests.planning.starter import make_result, read_starter


def trend(measure: str, *days: tuple[float | str, ...], lesson: str = "") -> Trend:
    """Return the trend of readings, a tuple a day, days a fortnight apart."""
    rows = [
        make_result(measure, value, lesson, on(14 * number))
        for number, values in enumerate(days)
        for value in values
    ]
    (found,) = find_trends(read_starter(), rows)
    return found


@pytest.mark.parametrize(
    ("later", "change"),
    [
        (11.9, Change.WITHIN_SCATTER),
        (12, Change.GREW),
        (8, Change.SHRANK),
        (8.1, Change.WITHIN_SCATTER),
    ],
)
def test_a_hold_has_changed_from_a_fifth_on(later: float, change: Change) -> None:
    found = trend("breath-hold-seconds", (10,), (later,))
    assert found.from_first is not None
    assert (found.from_first.change, found.from_first.scatter_share) == (change, 0.2)
    assert any(citation.key == "trembach-2017" for citation in found.from_first.citations)


def test_the_best_of_three_is_compared_with_the_best_of_three() -> None:
    found = trend("breath-hold-seconds", (9, 11, 10, 30), (12, 14, 13))
    assert (found.baseline.number, found.newest.number) == (11, 14)
    assert found.from_first is not None
    assert (found.from_first.earlier, found.from_first.later, found.from_first.trials) == (
        11,
        14,
        3,
    )
    assert found.from_first.change is Change.GREW


def test_a_first_trial_is_compared_with_a_first_one() -> None:
    found = trend("breath-hold-seconds", (10,), (10, 13, 14))
    assert found.newest.number == 14
    assert found.from_first is not None
    assert (found.from_first.later, found.from_first.trials) == (10, 1)
    assert found.from_first.change is Change.WITHIN_SCATTER


def test_the_first_the_best_and_the_one_before_are_told_apart() -> None:
    found = trend("breath-hold-seconds", (10,), (16,), (13,))
    assert found.best is not None
    assert (found.best.number, found.best.day) == (16, on(14))
    assert found.from_first is not None
    assert found.from_previous is not None
    assert found.from_first.change is Change.GREW
    assert found.from_previous.change is Change.WITHIN_SCATTER


def test_one_reading_is_compared_with_nothing() -> None:
    found = trend("breath-hold-seconds", (10, 11))
    assert (found.from_first, found.from_previous) == (None, None)


@pytest.mark.parametrize(
    ("days", "asks"),
    [(((2.5,), (2.4,)), True), (((2.5,), (2.6,)), False), (((2.0, 2.1),), False)],
)
def test_a_low_expansion_on_two_dates_asks_for_a_clinician(
    days: tuple[tuple[float, ...], ...], *, asks: bool
) -> None:
    """New York criteria 1966, as handbooks list them: 2.5 cm or less; two dates are ours."""
    assert trend("chest-expansion-cm", *days).asks_for_clinician is asks


def test_expansion_changes_from_six_millimetres_on() -> None:
    found = trend("chest-expansion-cm", (5.0,), (5.5,), (5.6,))
    assert found.from_first is not None
    assert found.from_previous is not None
    assert found.from_first.change is Change.GREW
    assert found.from_previous.change is Change.WITHIN_SCATTER


def reach(side: Side, *days: tuple[float, ...]) -> list[Result]:
    return [
        Result(on(14 * number), "ro-1", "reach-cm", side, value)
        for number, values in enumerate(days)
        for value in values
    ]


@pytest.mark.parametrize(
    ("days", "change", "scatter"),
    [
        (((12,), (10,)), Change.WITHIN_SCATTER, 2),
        (((3,), (0,)), Change.SHRANK, 2),
        (((12, 15), (9, 10)), Change.WITHIN_SCATTER, 3),
        (((12, 12), (10, 11)), Change.SHRANK, 1),
        (((12, 15), (9,)), Change.SHRANK, 2),
    ],
)
def test_a_gap_changes_beyond_what_looks_differ(
    days: tuple[tuple[float, ...], ...], change: Change, scatter: float
) -> None:
    (found,) = find_trends(read_starter(), reach(Side.LEFT, *days))
    assert found.from_first is not None
    assert (found.from_first.change, found.from_first.scatter_cm) == (change, scatter)


def test_the_smallest_gap_is_the_best_one_and_sides_stay_apart() -> None:
    rows = [*reach(Side.RIGHT, (9,), (4,)), *reach(Side.LEFT, (15,), (12,), (13,))]
    left, right = find_trends(read_starter(), rows)
    assert (left.side, right.side) == (Side.LEFT, Side.RIGHT)
    assert left.best is not None
    assert left.best.number == 12


def test_what_no_rule_judges_is_only_said() -> None:
    found = trend("longest-cycle-seconds", (8,), (12,))
    assert found.from_first is not None
    assert (found.from_first.change, found.from_first.citations) == (Change.UNJUDGED, ())
    words = trend("rib-sides", ("left first",), ("even",))
    assert (words.from_first, words.newest.word, words.best) == (None, "even", None)


def test_what_no_sum_is_made_for_is_only_said() -> None:
    found = trend("breath-hold-seconds", (10,), (400,))
    assert found.from_first is not None
    assert found.from_first.change is Change.UNJUDGED


def test_readings_of_two_lessons_are_two_trends() -> None:
    rows = [
        make_result("steady-breaths", 5, "belly-breath", on(0)),
        make_result("steady-breaths", 6, "tail-tuck", on(0)),
    ]
    found = find_trends(read_starter(), rows)
    assert [each.lesson_id for each in found] == ["belly-breath", "tail-tuck"]
