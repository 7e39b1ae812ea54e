"""Versions: how long a lesson takes somebody, and what it is worth to them."""

from dataclasses import replace

import pytest

from builder.course.dose import Dose
from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import Version
from builder.planning.class_plan.versions import make_version
from builder.planning.permission import find_adaptations
from builder.records.attendance import Attendance
from builder.records.plan import OWN_PACE
from builder.records.result import Result
from tests.planning.class_plan.starter_class import did, did_all, make_guest, read
from tests.planning.starter import make_person, read_starter

SLOWER_RIGHT = [read("rib-sides", "left first", "rib-sides-check")]


def make(
    lesson: str,
    rows: list[Attendance],
    results: list[Result] | None = None,
    *,
    is_asked: bool = True,
) -> Version:
    guest = make_guest(rows, results or [])
    return make_version(guest, read_starter().by_id[lesson], is_asked=is_asked)


def test_the_weaker_side_gets_one_set_more() -> None:
    lesson = read_starter().by_id["weak-side-breath"]
    dose = lesson.drill.dose
    assert isinstance(dose, Dose)
    even = make("weak-side-breath", [])
    more = make("weak-side-breath", [], SLOWER_RIGHT)
    own_pace_seconds = 4  # 15 breaths a minute, the middle of 12 to 20 at rest (NEWS2, 2017)
    assert more.seconds - even.seconds == dose.breaths * own_pace_seconds + dose.rest_seconds


def test_lessons_with_sides_together_stay_as_long() -> None:
    assert make("even-count", [], SLOWER_RIGHT).seconds == make("even-count", []).seconds


@pytest.mark.parametrize(("days", "points"), [(14, worth.RETEST), (3, worth.NOT_DUE)])
def test_a_check_is_worth_more_when_its_measure_is_due(days: int, points: int) -> None:
    rows = did_all("C1", "belly-breath")
    old = [read("breath-hold-seconds", 12, "comfortable-hold", days=days)]
    assert make("comfortable-hold", rows, old).points == points


@pytest.mark.parametrize(
    ("letters", "points", "is_new"),
    [("", worth.STEP, True), ("a", worth.PRACTICE, False), ("rr", worth.KNOWN, False)],
)
def test_a_step_outweighs_practice_and_that_what_is_known(
    letters: str, points: int, is_new: bool
) -> None:
    rows = [*did_all("C1", "side-rib-breath"), *did("C1", "side-rib-breath", letters)]
    version = make("side-rib-breath", rows)
    assert (version.points, version.is_new) == (points, is_new)
    assert make("side-rib-breath", rows, is_asked=False).points == worth.KNOWN


def test_timed_holds_come_once_for_their_three_tries_are_all_of_a_day() -> None:
    steps = read_starter().by_id["comfortable-hold"].words.steps
    assert any("three tries in all" in step.text for step in steps)
    assert make("comfortable-hold", []).most_times == 1
    assert make("hands-check-sitting", []).most_times == 2


def test_a_version_has_the_count_and_the_props_of_its_lesson() -> None:
    free, counted = make("belly-breath", []), make("ball-hold", [])
    assert (free.count, free.family, free.is_loaded) == (OWN_PACE, "lying", False)
    assert (counted.count, counted.is_loaded) == ("4-1-4-1", True)
    assert dict(counted.props) == {"mat": 1, "pillow": 1, "ball": 1}


def test_who_sits_instead_needs_a_chair_and_no_mat_beside_those_who_lie() -> None:
    """The family stays: they hear the same words at the same count as the others."""
    course = read_starter()
    lesson, person = course.by_id["crocodile"], make_person("pregnancy")
    guest = make_guest([], [])
    changes = {lesson.id: find_adaptations(course, person, lesson)}
    lying = make_version(guest, lesson, is_asked=True)
    sitting = make_version(replace(guest, adaptations=changes), lesson, is_asked=True)
    assert dict(lying.props) == {"mat": 1, "block": 1}
    assert dict(sitting.props) == {"block": 1, "chair": 1}
    assert sitting.family == lying.family == "lying"
    assert sitting.is_adapted
