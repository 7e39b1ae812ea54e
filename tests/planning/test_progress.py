"""Progress: on, stay, back or wait in each strand, each with its reason; all rules are ours."""

from collections.abc import Collection, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.planning.progress import (
    Direction,
    Progress,
    Reason,
    ReasonKind,
    find_progress,
    find_rest,
)
from builder.records.attendance import Attendance, Outcome
from tests.planning.rows import OUTCOMES, do, list_rows, on, stand
from tests.planning.starter import read_starter

CHECKS = (
    *do("ready-to-start", "r"),
    *do("hands-check-sitting", "r"),
    *do("hands-check-lying", "r"),
)


def go_on(
    rows: Collection[Attendance],
    strand: str,
    *,
    day: int = 40,
    placed: Collection[str] = (),
    barred: Collection[str] = (),
) -> Progress:
    found = find_progress(read_starter(), stand(rows, day, placed), lambda name: name in barred)
    return next(each for each in found if each.strand_id == strand)


def test_every_strand_is_told_in_the_order_of_the_course() -> None:
    course = read_starter()
    found = find_progress(course, stand(()), lambda _: False)
    assert [each.strand_id for each in found] == list(course.vocabulary.strands)
    assert found[0] == Progress(
        "first-checks",
        Direction.START,
        "ready-to-start",
        (Reason(ReasonKind.FIRST, ("ready-to-start",)),),
    )
    assert found[1].reasons == (
        Reason(ReasonKind.NEEDS, ("hands-check-lying",), waiting_id="belly-breath"),
    )
    assert found[1].direction is Direction.WAIT


def test_people_start_where_they_were_placed() -> None:
    found = go_on((), "breath", placed=["full-exhale"])
    assert (found.direction, found.lesson_id) == (Direction.START, "full-exhale")
    assert found.reasons == (Reason(ReasonKind.PLACED, ("full-exhale",)),)


def test_ready_twice_leads_on_and_equal_levels_are_alternatives() -> None:
    rows = [*CHECKS, *do("rib-sides-check", "r"), *do("belly-breath", "rr")]
    found = go_on([*rows, *do("side-rib-breath", "rr", start=5)], "breath")
    assert (found.direction, found.lesson_id) == (Direction.FORWARD, "back-rib-breath")
    assert found.alternatives == ("weak-side-breath",)
    assert found.reasons == (Reason(ReasonKind.KNOWN, ("side-rib-breath",)),)


def test_what_was_left_out_is_said_to_be() -> None:
    rows = [*CHECKS, *do("rib-sides-check", "r"), *do("full-exhale", "rr")]
    found = go_on(rows, "breath", placed=["full-exhale"])
    assert (found.lesson_id, found.direction) == ("weak-side-breath", Direction.FORWARD)
    assert found.reasons == (Reason(ReasonKind.LEFT_OUT, ("weak-side-breath",)),)


@pytest.mark.parametrize(
    ("outcomes", "reason"),
    [
        ("a", Reason(ReasonKind.NOT_YET, ("weak-side-breath",), 0)),
        ("r", Reason(ReasonKind.NOT_YET, ("weak-side-breath",), 1)),
    ],
)
def test_what_was_tried_is_not_said_to_be_left_out(outcomes: str, reason: Reason) -> None:
    rows = [*CHECKS, *do("rib-sides-check", "r"), *do("weak-side-breath", outcomes)]
    found = go_on([*rows, *do("full-exhale", "rr", start=5)], "breath", placed=["full-exhale"])
    assert found.reasons == (reason,)


def test_a_check_that_was_too_much_is_said_to_be_so() -> None:
    rows = [*CHECKS, *do("ready-to-start", "ee", start=4), *do("rib-sides-check", "r", start=9)]
    found = go_on(rows, "first-checks")
    assert (found.lesson_id, found.reasons) == (
        "ready-to-start",
        (Reason(ReasonKind.TOO_MUCH, ("ready-to-start",)),),
    )


@pytest.mark.parametrize(
    ("outcomes", "ready", "is_stuck"),
    [("r", 1, False), ("ra", 0, False), ("aaa", 0, True), ("aar", 1, False)],
)
def test_people_stay_until_a_lesson_is_known(outcomes: str, ready: int, *, is_stuck: bool) -> None:
    found = go_on([*CHECKS, *do("belly-breath", outcomes)], "breath")
    assert (found.direction, found.lesson_id) == (Direction.STAY, "belly-breath")
    stuck = [Reason(ReasonKind.STUCK, ("belly-breath",), 3)] if is_stuck else []
    assert list(found.reasons) == [Reason(ReasonKind.NOT_YET, ("belly-breath",), ready), *stuck]


def test_easier_twice_leads_to_the_easier_lesson_until_it_was_ready() -> None:
    rows = [*CHECKS, *do("belly-breath", "rr"), *do("side-rib-breath", "ee", start=5)]
    back = go_on(rows, "breath")
    assert (back.direction, back.lesson_id) == (Direction.BACK, "belly-breath")
    assert back.reasons == (Reason(ReasonKind.TOO_MUCH, ("side-rib-breath",)),)
    assert go_on([*rows, *do("belly-breath", "a", start=9)], "breath").lesson_id == "belly-breath"
    on_again = go_on([*rows, *do("belly-breath", "ar", start=9)], "breath")
    assert (on_again.direction, on_again.lesson_id) == (Direction.FORWARD, "side-rib-breath")


def test_an_easier_lesson_may_be_in_another_strand() -> None:
    rows = do("tail-tuck", "ee")
    assert go_on(rows, "brace", placed=["tail-tuck", "full-exhale"]).lesson_id == "full-exhale"


def test_where_the_easier_lesson_is_barred_the_strand_waits() -> None:
    rows = [*CHECKS, *do("belly-breath", "ee")]
    found = go_on(rows, "breath", barred=["hands-check-lying"])
    assert (found.direction, found.lesson_id) == (Direction.WAIT, "")
    assert found.reasons[-1] == Reason(ReasonKind.BARRED, ("hands-check-lying",))


def test_six_weeks_away_lead_one_level_back() -> None:
    rows = [*CHECKS, *do("belly-breath", "rr"), *do("side-rib-breath", "rr")]
    found = go_on(rows, "breath", day=60)
    assert (found.direction, found.lesson_id) == (Direction.BACK, "side-rib-breath")
    assert found.reasons == (Reason(ReasonKind.AWAY, ("side-rib-breath",)),)


def test_a_barred_lesson_is_passed_over_and_named() -> None:
    rows = [*CHECKS, *do("rib-sides-check", "r"), *do("belly-breath", "rr")]
    rows += do("side-rib-breath", "rr", start=5)
    found = go_on(rows, "breath", barred=["back-rib-breath"])
    assert (found.lesson_id, found.alternatives) == ("weak-side-breath", ())
    assert found.reasons[-1] == Reason(ReasonKind.BARRED, ("back-rib-breath",))


def test_a_strand_waits_where_all_that_is_open_is_barred() -> None:
    found = go_on(CHECKS, "breath", barred=["belly-breath"])
    assert found.direction is Direction.WAIT
    assert found.reasons == (Reason(ReasonKind.BARRED, ("belly-breath",)),)


def test_a_strand_in_which_all_is_known_is_done() -> None:
    rows = [*CHECKS, *do("rib-sides-check", "r"), *do("comfortable-hold", "r")]
    assert go_on(rows, "first-checks").direction is Direction.DONE


@given(
    list_rows(span=150),
    st.integers(0, 150),
    st.sets(st.sampled_from(["belly-breath", "side-rib-breath", "hands-check-lying"])),
)
def test_nobody_is_sent_to_a_barred_lesson_or_past_what_it_builds_on(
    rows: list[Attendance], day: int, barred: set[str]
) -> None:
    course, standing = read_starter(), stand(rows, day)
    for each in find_progress(course, standing, barred.__contains__):
        named = [name for name in (each.lesson_id, *each.alternatives) if name]
        assert not barred.intersection(named)
        assert each.reasons
        assert bool(named) is (each.direction not in {Direction.WAIT, Direction.DONE})
        if each.direction is not Direction.BACK:
            for name in named:
                assert standing.met.issuperset(course.by_id[name].builds_on)


@pytest.mark.parametrize(
    ("outcomes", "rest_seconds", "expected"),
    [
        ("", None, 30),  # the lesson's own
        ("r", None, 30),
        ("rr", None, 27),
        ("rr", 20, 18),
        ("ra", 20, 20),
        ("rr", 16, 15),
        ("rr", 900, 27),
    ],
)
def test_rests_shorten_after_ready_twice_only(
    outcomes: str, rest_seconds: int | None, expected: float
) -> None:
    lesson = read_starter().by_id["even-count"]
    tried: Sequence[Outcome] = [OUTCOMES[letter] for letter in outcomes]
    rows = [
        Attendance(on(number), "ro-1", "even-count", outcome, rest_seconds=rest_seconds)
        for number, outcome in enumerate(tried)
    ]
    rest = find_rest(lesson, rows, tried)
    assert rest is not None
    assert rest.seconds == expected


def test_a_lesson_that_counts_nothing_has_no_rest() -> None:
    assert find_rest(read_starter().by_id["comfortable-hold"], (), ()) is None
