"""Standing: what is known and what is open, by the rules of ours in sums/advance.py."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.graph import find_before
from builder.planning.standing import OnceMore
from builder.records.attendance import Attendance, Outcome
from tests.planning.rows import do, list_rows, make_row, on, stand
from tests.planning.starter import read_starter

CHECKS = (
    *do("ready-to-start", "r"),
    *do("hands-check-sitting", "r"),
    *do("hands-check-lying", "r"),
    *do("rib-sides-check", "r"),
)
PLACED = st.sets(st.sampled_from(["belly-breath", "full-exhale", "even-count", "ready-to-start"]))


@pytest.mark.parametrize(
    ("outcomes", "is_known"),
    [("r", False), ("rr", True), ("rar", False), ("arr", True), ("rra", True), ("rre", True)],
)
def test_a_drill_is_known_after_ready_twice_in_a_row(outcomes: str, *, is_known: bool) -> None:
    assert ("belly-breath" in stand(do("belly-breath", outcomes)).known) is is_known


def test_a_check_is_known_after_one() -> None:
    assert stand(CHECKS).known == {row.lesson_id for row in CHECKS}


def test_twice_on_one_day_is_once_and_the_weaker_outcome_counts() -> None:
    rows = [make_row(0, "belly-breath", Outcome.READY)] * 2
    assert stand(rows).tries == {"belly-breath": (Outcome.READY,)}
    assert "belly-breath" not in stand(rows).known
    mixed = [*rows, make_row(0, "belly-breath", Outcome.EASIER)]
    assert stand(mixed).tries == {"belly-breath": (Outcome.EASIER,)}


def test_what_builds_on_known_lessons_is_open_in_teaching_order() -> None:
    assert stand(()).open == ("ready-to-start",)
    assert stand(CHECKS).open == ("comfortable-hold", "belly-breath")


def test_easier_twice_takes_a_lesson_and_what_builds_on_it_back() -> None:
    rows = [*CHECKS, *do("belly-breath", "rr"), *do("side-rib-breath", "rr", start=1)]
    rows += do("belly-breath", "ee", start=20)
    standing = stand(rows)
    assert standing.known == {row.lesson_id for row in CHECKS}
    assert standing.once_more == {"side-rib-breath": OnceMore.LOST_BEFORE}
    assert standing.too_much == ("belly-breath",)
    assert standing.set_back == ("hands-check-lying",)
    assert "belly-breath" not in standing.open
    assert "side-rib-breath" not in standing.open


def test_a_lesson_that_was_too_much_opens_once_its_easier_one_is_ready_again() -> None:
    rows = [*CHECKS, *do("belly-breath", "ee"), *do("hands-check-lying", "r", start=9)]
    standing = stand(rows)
    assert (standing.too_much, standing.set_back) == ((), ())
    assert "belly-breath" in standing.open


def test_what_was_shown_again_since_stays_known() -> None:
    rows = [*do("belly-breath", "rr"), *do("side-rib-breath", "rr")]
    rows += [*do("belly-breath", "ee", start=20), *do("side-rib-breath", "r", start=30)]
    assert stand(rows).known == {"side-rib-breath"}


def test_after_six_weeks_the_top_level_of_each_strand_is_shown_once_more() -> None:
    rows = [*CHECKS, *do("belly-breath", "rr"), *do("side-rib-breath", "rr")]
    assert stand(rows, day=43).once_more == {}
    away = stand(rows, day=44)
    assert (away.weeks_away, away.last_day) == (6, on(2))
    assert away.once_more == {
        "rib-sides-check": OnceMore.AWAY,
        "side-rib-breath": OnceMore.AWAY,
    }
    assert {"belly-breath", "hands-check-lying"} <= away.known
    back = stand([*rows, *do("side-rib-breath", "r", start=50)], day=51)
    assert "side-rib-breath" in back.known
    assert back.once_more == {"rib-sides-check": OnceMore.AWAY}


def test_a_second_absence_goes_no_further_back() -> None:
    rows = [*do("belly-breath", "rr"), *do("side-rib-breath", "rr")]
    rows += do("comfortable-hold", "r", start=60)
    assert "belly-breath" in stand(rows, day=120).known


def test_what_lies_before_a_placed_start_counts() -> None:
    standing = stand((), placed=["full-exhale"])
    assert standing.known == find_before(read_starter().graph, "full-exhale")
    assert "full-exhale" in standing.open


def test_who_begins_with_the_first_check_has_done_none_of_them() -> None:
    standing = stand((), placed=["ready-to-start", "belly-breath"])
    assert standing.known == frozenset()
    assert {"ready-to-start", "belly-breath"} <= set(standing.open)


def test_the_record_outweighs_placement() -> None:
    standing = stand(do("belly-breath", "ee"), placed=["full-exhale"])
    assert "belly-breath" not in standing.known
    assert "full-exhale" not in standing.open


def test_the_lesson_last_worked_on_is_the_current_one_of_its_strand() -> None:
    rows = [*do("belly-breath", "rr"), *do("comfortable-hold", "r", start=4)]
    assert stand(rows).current == {"first-checks": "comfortable-hold", "breath": "belly-breath"}


def test_a_lesson_that_the_course_lacks_only_shows_that_somebody_came() -> None:
    standing = stand([make_row(3, "gone", Outcome.READY)])
    assert (standing.last_day, standing.tries, standing.current) == (on(3), {}, {})


@given(list_rows(span=200), PLACED, st.integers(0, 200))
def test_what_is_open_never_misses_what_it_builds_on(
    rows: list[Attendance], placed: set[str], day: int
) -> None:
    standing = stand(rows, day, placed)
    by_id = read_starter().by_id
    for name in standing.open:
        assert standing.met.issuperset(by_id[name].builds_on)
    assert not standing.known & set(standing.open)
    assert not set(standing.too_much) & {*standing.open, *standing.known}
    assert not standing.known & set(standing.once_more)
    assert standing.known <= standing.met


@given(list_rows(span=200), st.integers(0, 200))
def test_nothing_is_known_without_having_been_ready(rows: list[Attendance], day: int) -> None:
    ready = {row.lesson_id for row in rows if row.outcome is Outcome.READY and row.day <= on(day)}
    assert stand(rows, day).known <= ready


@given(
    list_rows(span=200), st.integers(0, 200), st.sampled_from(["belly-breath", "rib-sides-check"])
)
def test_one_more_ready_never_takes_anything_away(
    rows: list[Attendance], day: int, lesson: str
) -> None:
    before = [row for row in rows if row.day < on(day)]
    more = [*before, make_row(day, lesson, Outcome.READY)]
    assert stand(before, day).known <= stand(more, day).known


@given(list_rows(), st.integers(0, 40), st.sampled_from(["belly-breath", "back-rib-breath"]))
def test_one_more_easier_never_gives_anything(
    rows: list[Attendance], day: int, lesson: str
) -> None:
    before = [row for row in rows if row.day < on(day)]
    more = [*before, make_row(day, lesson, Outcome.EASIER)]
    assert stand(more, day).known <= stand(before, day).known


@given(list_rows(), st.integers(0, 40))
def test_what_comes_later_changes_nothing(rows: list[Attendance], day: int) -> None:
    assert stand(rows, day) == stand([row for row in rows if row.day <= on(day)], day)


@given(st.data())
def test_the_order_of_rows_counts_for_nothing_but_the_current_lesson(data: st.DataObject) -> None:
    rows = data.draw(list_rows())
    shuffled: Sequence[Attendance] = data.draw(st.permutations(rows))
    ours, theirs = stand(rows), stand(shuffled)
    assert (ours.known, ours.open, ours.tries) == (theirs.known, theirs.open, theirs.tries)
    assert (ours.once_more, ours.set_back) == (theirs.once_more, theirs.set_back)
