"""A ladder for home: the person's own next rungs, within what they hold and breathe easily."""

from itertools import pairwise

import pytest

from builder.course.tempo import Tempo
from builder.planning.home_ladder import MOST_RUNGS, HomeLadder, climb_home, stretch_tempo
from builder.records.result import Result
from tests.planning.rows import on
from tests.planning.starter import make_person, make_result, read_starter


def read(value: float, day: int = 5) -> Result:
    return make_result("longest-cycle-seconds", value, "tempo-ladder", on(day))


def climb(*results: Result, lesson: str = "tempo-ladder") -> HomeLadder | None:
    course = read_starter()
    return climb_home(course, make_person(), course.by_id[lesson], results, on(20))


def test_without_a_reading_there_is_no_ladder() -> None:
    assert climb() is None


def test_only_a_lesson_that_is_a_ladder_has_one() -> None:
    assert climb(read(12), lesson="even-count") is None


def test_the_first_rung_lies_within_the_newest_easy_breath() -> None:
    found = climb(read(14, 3), read(10, 5))
    assert found is not None
    assert found.easy_seconds == 10
    assert found.rungs[0].cycle_seconds <= 10


def test_rungs_grow_by_a_tenth_at_most() -> None:
    """Ratamess and others 2009, 41:687: loads grow by 2 to 10 % at a time; for breaths ours."""
    found = climb(read(9))
    assert found is not None
    for earlier, later in pairwise(found.rungs):
        assert 1 < later.cycle_seconds / earlier.cycle_seconds <= 1.1 + 1e-9
    assert len(found.rungs) <= MOST_RUNGS


def test_the_ladder_ends_where_the_lesson_says() -> None:
    found = climb(read(15))
    assert found is not None
    assert found.ladder.rungs[-1].cycle_seconds <= read_starter().by_id["tempo-ladder"].ladder[-1]


def test_a_reading_that_the_sums_are_not_made_for_gives_none() -> None:
    assert climb(read(2)) is None


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [(12, "4-1-6-1"), (13, "4-1-7-1"), (14, "4.5-1-7.5-1"), (15, "5-1-8-1")],
)
def test_a_longer_breath_keeps_its_pauses(seconds: float, expected: str) -> None:
    assert stretch_tempo(Tempo.parse("4-1-6-1"), seconds) == Tempo.parse(expected)
