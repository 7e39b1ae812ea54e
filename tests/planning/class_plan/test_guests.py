"""Guests: what a plan takes from the records of somebody who comes."""

from datetime import date

import pytest

from builder.planning.permission import AdaptationKind, BarrierKind
from builder.records.person import Person
from builder.records.result import Side
from tests.planning.class_plan.starter_class import DAY, did, did_all, make_guest, read


def test_what_was_recorded_on_the_day_of_the_class_counts_and_nothing_later() -> None:
    rows = [*did_all("C1", "side-rib-breath"), *did("C1", "side-rib-breath", "rr", last=0)]
    assert "side-rib-breath" in make_guest(rows).standing.known
    later = [*rows, *did("C1", "side-rib-breath", "ee", last=-3)]
    assert "side-rib-breath" in make_guest(later).standing.known
    held = read("breath-hold-seconds", 20, "comfortable-hold", days=-1)
    assert [each.kind for each in make_guest(rows, [held]).barriers["box"]] == [BarrierKind.HOLD]


@pytest.mark.parametrize(("seconds", "is_barred"), [(7.9, True), (8, False)])
def test_a_hold_may_be_half_of_the_comfortable_one(seconds: float, is_barred: bool) -> None:
    guest = make_guest([], [read("breath-hold-seconds", seconds, "comfortable-hold")])
    assert ("box" in guest.barriers) is is_barred


@pytest.mark.parametrize(("lesson", "is_work"), [("strap-hamstring", True), ("even-count", False)])
def test_only_work_asks_for_a_day_of_rest(lesson: str, is_work: bool) -> None:
    assert make_guest(did("C1", lesson, "a", last=1)).worked_yesterday is is_work


def test_a_measure_is_due_after_two_weeks() -> None:
    fresh = [read("breath-hold-seconds", 12, "comfortable-hold", days=13)]
    assert "comfortable-hold" not in make_guest([], fresh).due
    old = [read("breath-hold-seconds", 12, "comfortable-hold", days=14)]
    assert "comfortable-hold" in make_guest([], old).due


def test_the_slower_side_is_the_weaker_one() -> None:
    guest = make_guest([], [read("rib-sides", "left first", "rib-sides-check")])
    assert guest.weaker_sides["weak-side-breath"] is Side.RIGHT


@pytest.mark.parametrize(("on", "is_cleared"), [(DAY, True), (date(2026, 11, 25), False)])
def test_an_answer_counts_from_its_day_on(on: date, is_cleared: bool) -> None:
    person = Person("C1", "Cy", conditions=("pregnancy",), cleared={"pregnancy": on})
    guest = make_guest([], person=person)
    assert ("belly-breath" not in guest.barriers) is is_cleared
    kinds = [each.kind for each in guest.adaptations["belly-breath"]]
    assert AdaptationKind.ADAPT in kinds
