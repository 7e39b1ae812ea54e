"""A person's plan for home: only what a coach has seen, nothing barred, nothing while in doubt."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings

from builder.planning.home_days import Span
from builder.planning.home_lessons import MOST_LESSONS, WhyInClass
from builder.planning.home_plan import HomeLesson, HomePlan, find_class_days, find_kind, plan_home
from builder.planning.overview import survey_person
from builder.records.attendance import Attendance, Outcome
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result, Side
from builder.records.weeks_order import Weekday, WeeksOrder
from builder.sums.practice import Kind
from tests.planning.rows import do, list_rows, on
from tests.planning.starter import make_person, make_result, read_starter

CHECKS = (
    *do("ready-to-start", "r"),
    *do("hands-check-sitting", "r"),
    *do("hands-check-lying", "r"),
    *do("comfortable-hold", "r"),
    *do("rib-sides-check", "r"),
)
BREATH = (
    *do("belly-breath", "rr"),
    *do("side-rib-breath", "rr", 4),
    *do("back-rib-breath", "rr", 8),
)


def plan(
    attendance: Iterable[Attendance] = (),
    results: Iterable[Result] = (),
    person: Person | None = None,
    *,
    day: int = 20,
    classes: Iterable[date] = (),
) -> HomePlan:
    who = person or make_person()
    program = Program({who.id: who}, tuple(results), tuple(attendance))
    overview = survey_person(read_starter(), program, who, on(day))
    return plan_home(read_starter(), program, overview, tuple(classes))


def list_lessons(found: HomePlan) -> list[str]:
    return [lesson.lesson_id for lesson in found.lessons]


def find_why(found: HomePlan, strand: str) -> WhyInClass | None:
    return next((left.why for left in found.left if left.strand_id == strand), None)


def test_somebody_new_has_nothing_to_practise_alone() -> None:
    found = plan()
    assert found.lessons == ()
    assert {left.why for left in found.left} == {WhyInClass.NEW}


def test_the_next_lesson_comes_once_a_coach_has_seen_it() -> None:
    seen = (*CHECKS, *do("belly-breath", "a", 10))
    assert list_lessons(plan(seen)) == ["belly-breath"]


def test_what_was_never_done_waits_for_class_and_the_last_one_stays() -> None:
    known = (*CHECKS, *do("belly-breath", "rr", 10))
    assert list_lessons(plan(known)) == ["belly-breath"]


def test_a_lesson_with_a_coachs_hands_is_not_done_alone() -> None:
    found = plan((*CHECKS, *BREATH))
    assert list_lessons(found) == ["belly-breath"]


@pytest.mark.parametrize("outcomes", ["e", "re", "aaa"])
def test_what_was_too_much_or_is_stuck_is_for_a_coach_to_look_at(outcomes: str) -> None:
    found = plan((*CHECKS, *do("belly-breath", outcomes, 10)))
    assert found.lessons == ()
    assert find_why(found, "breath") is WhyInClass.LOOK


def test_after_six_weeks_away_all_is_shown_once_more_first() -> None:
    found = plan((*CHECKS, *do("belly-breath", "rr", 10)), day=60)
    assert found.lessons == ()


@pytest.mark.parametrize("condition", ["pregnancy", "thin-bones", "hernia"])
def test_while_a_clinicians_answer_is_open_there_are_no_lessons(condition: str) -> None:
    found = plan((*CHECKS, *do("belly-breath", "a", 10)), person=make_person(condition))
    assert (found.asks_first, found.lessons, found.days) == ((condition,), (), ())
    assert found.retest is None


def test_an_answer_opens_lessons_with_what_changes_in_them() -> None:
    person = make_person("thin-bones", cleared={"thin-bones": on(0)})
    found = plan((*CHECKS, *do("belly-breath", "a", 10)), person=person)
    assert list_lessons(found) == ["belly-breath"]
    assert any(adaptation.text for adaptation in found.lessons[0].adaptations)


def test_a_hold_over_half_of_the_comfortable_one_is_left_out() -> None:
    rows = (*CHECKS, *do("box", "a", 10))
    holds = (make_result("breath-hold-seconds", 6, "comfortable-hold", on(1)),)
    assert "box" not in list_lessons(plan(rows, holds))
    assert find_why(plan(rows, holds), "tempo") is WhyInClass.BARRED


def test_there_are_at_most_five_lessons_of_the_strands_last_worked_on() -> None:
    drills = ("belly-breath", "deep-belly-feel", "even-count", "side-lying-breath")
    more = ("rest-pose-back-ribs", "ball-hold", "find-neutral")
    rows = [*CHECKS]
    for number, name in enumerate((*drills, *more)):
        rows += do(name, "a", 5 + number)
    found = plan(rows)
    assert len(found.lessons) == MOST_LESSONS
    assert "belly-breath" not in list_lessons(found)
    assert find_why(found, "breath") is WhyInClass.NO_ROOM


def test_the_weaker_side_gets_one_set_more_and_takes_longer() -> None:
    rows = (*CHECKS, *do("side-lying-rotation-hold", "a", 10))
    gaps = tuple(
        Result(on(10), "ro-1", "reach-cm", side, value, lesson_id="side-lying-rotation-hold")
        for side, value in ((Side.LEFT, 20.0), (Side.RIGHT, 10.0))
    )
    even, uneven = plan(rows).lessons[0], plan(rows, gaps).lessons[0]
    assert even.side_plan is None
    assert uneven.side_plan is not None
    assert uneven.side_plan.first is Side.LEFT
    assert uneven.minutes > even.minutes


def test_practice_begins_the_day_after() -> None:
    found = plan((*CHECKS, *do("belly-breath", "a", 10)))
    assert found.span.first_day == on(21)
    assert found.days[0] >= on(21)


def test_measuring_again_falls_on_the_next_class_after_it_is_due() -> None:
    results = (make_result("breath-hold-seconds", 12, "comfortable-hold", on(14)),)
    found = plan(CHECKS, results, classes=(on(22), on(30)))
    assert found.retest is not None
    assert found.retest.day == on(22)
    assert "breath-hold-seconds" not in [measure.id for measure in found.retest.measures]


@pytest.mark.parametrize(
    ("lesson", "kind"),
    [
        ("belly-breath", Kind.STRETCH),
        ("even-count", Kind.STRETCH),
        ("strap-hamstring", Kind.CONTROL),  # its author says that it asks for some effort
        ("brace-and-breathe", Kind.CONTROL),
        ("ball-hold", Kind.RESISTANCE),
        ("band-roll", Kind.RESISTANCE),
    ],
)
def test_the_kind_of_work_follows_from_the_drill(lesson: str, kind: Kind) -> None:
    found = read_starter().by_id[lesson]
    assert find_kind(found.drill, found.strand.aim) is kind


def test_class_days_come_from_classes_and_courses_of_weeks() -> None:
    order = ClassOrder(date(2026, 11, 24), "mixed", 60, ("C1", "C2"), ("K1",), ())
    weeks = WeeksOrder(date(2026, 12, 1), "winter", 1, (Weekday.TUESDAY,), 60, ("C2",), (), ("K1",))
    assert find_class_days((order,), (weeks,), "C2") == (date(2026, 11, 24), date(2026, 12, 1))
    assert find_class_days((order,), (weeks,), "C1") == (date(2026, 11, 24),)
    assert find_class_days((order,), (weeks,), "C9") == ()


def test_without_a_known_class_measuring_again_has_no_fixed_day() -> None:
    found = plan(CHECKS).retest
    assert found is not None
    assert (found.day, found.is_class_day) == (on(21), False)


@settings(max_examples=25, deadline=None)
@given(list_rows(30))
def test_whatever_is_on_record_nobody_practises_alone_what_no_coach_saw_go_well_enough(
    rows: list[Attendance],
) -> None:
    program = Program({"ro-1": make_person()}, (), tuple(rows))
    overview = survey_person(read_starter(), program, make_person(), on(31))
    found = plan_home(read_starter(), program, overview, ())
    assert len(found.lessons) <= MOST_LESSONS
    for name in list_lessons(found):
        assert name not in overview.barriers
        assert overview.standing.tries[name][-1] is not Outcome.EASIER
        assert name not in overview.standing.once_more
        assert "hands-on" not in read_starter().traits_by_lesson[name]
    assert [left.strand_id for left in found.left if left.strand_id == "first-checks"] == []


def test_work_on_fewer_days_than_published_is_known_by_its_weeks_and_classes_count() -> None:
    """Two days a week and more: Garber and others 2011."""
    span = Span(date(2026, 11, 23), 3)
    work = HomeLesson("tail-tuck", Kind.CONTROL, (date(2026, 11, 24),), 5, None, None, ())
    quiet = replace(work, kind=Kind.STRETCH)
    found = HomePlan("ro-1", span, (), (work, quiet), (), None, (date(2026, 11, 26),), None)
    assert found.list_thin_weeks(work) == (2, 3)
    assert found.list_thin_weeks(quiet) == ()
