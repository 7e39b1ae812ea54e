"""Planned: whole classes, possible and not, planned anew, and changed by hand."""

from dataclasses import replace

import pytest

from builder.planning.class_plan.changes import Change
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass, Planner
from builder.planning.class_plan.refusal import Ground
from builder.planning.class_plan.score import Fault
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.plan import ClassPlan, PlannedBlock, Turn
from tests.planning.class_plan.starter_class import did_all, make_order, make_planner, make_program

PREGNANT = Person("C3", "Cleo", conditions=("pregnancy",))
PEOPLE = (Person("C1", "Cy"), Person("C2", "Col"), PREGNANT)
PROGRAM = make_program(
    PEOPLE, [*did_all("C1", "ball-hold"), *did_all("C2", "ball-hold"), *did_all("C3", "ball-hold")]
)


def plan(order: ClassOrder) -> PlannedClass | ImpossibleClass:
    return make_planner(PROGRAM, order).plan()


def test_with_one_ball_one_of_two_works_with_it_at_a_time() -> None:
    planned = plan(make_order(["C1", "C2"], strands=["front-line"], props={"ball": 1}))
    assert isinstance(planned, PlannedClass)
    for block in planned.plan.blocks:
        assert sum(turn.lesson_id.startswith("ball") for turn in block.turns) <= 1
    assert {turn.lesson_id for block in planned.plan.blocks for turn in block.turns} >= {
        "ball-hold"
    }


def test_without_time_to_share_it_one_more_ball_is_the_smallest_change() -> None:
    """Two blocks, the first without work: one ball can't serve both."""
    order = replace(
        make_order(["C1", "C2"], strands=["front-line"], props={"ball": 1}, coaches=2),
        most_blocks=2,
    )
    planned = plan(order)
    assert isinstance(planned, PlannedClass)
    (wish,) = planned.wishes
    assert (wish.strand_id, len(wish.people)) == ("front-line", 1)
    assert wish.change == Change(props={"ball": 1})
    more = plan(replace(order, props={"ball": 2}))
    assert isinstance(more, PlannedClass)
    assert more.wishes == ()
    assert more.score.points > planned.score.points


@pytest.mark.parametrize(("people", "idle"), [(["C3"], ("C3",)), (["C1", "C3"], ("C3",))])
def test_who_wants_an_answer_first_is_named(people: list[str], idle: tuple[str, ...]) -> None:
    planned = plan(make_order(people))
    assert isinstance(planned, ImpossibleClass)
    assert planned.idle == idle


def test_the_class_is_possible_without_who_wants_an_answer_first() -> None:
    planned = plan(make_order(["C1", "C3"]))
    assert isinstance(planned, ImpossibleClass)
    assert planned.change == Change(left_out=("C3",))


def test_a_class_too_short_for_anything_says_how_much_longer() -> None:
    planned = plan(make_order(["C1"], minutes=2))
    assert isinstance(planned, ImpossibleClass)
    assert planned.idle == ()
    assert planned.change is not None
    longer = make_order(["C1"], minutes=2 + planned.change.minutes)
    assert isinstance(plan(longer), PlannedClass)
    less = make_order(["C1"], minutes=1 + planned.change.minutes)
    assert isinstance(plan(less), ImpossibleClass)


def check_one(lesson: str, count: str = "own pace") -> PlannedClass:
    planner = make_planner(PROGRAM, make_order(["C1"]))
    turns = (Turn("C1", lesson, has_close_look=True),)
    blocks = (PlannedBlock(count, "lying", turns),)
    return planner.check(ClassPlan(planner.order.title, ("C1",), blocks))


def test_a_plan_changed_by_hand_is_told_why_a_lesson_may_not_be() -> None:
    checked = check_one("roll", "4-1-4-1")
    assert [breach.fault for breach in checked.score.breaches] == [Fault.NOT_ALLOWED]
    (refusal,) = checked.refusals
    assert (refusal.ground, refusal.missing) == (Ground.NOT_READY, ("diagonal",))
    assert checked.bound is None
    assert not checked.is_proven


def test_a_sound_plan_changed_by_hand_has_no_breach() -> None:
    assert check_one("belly-breath").score.breaches == ()


def test_somebody_at_the_door_is_planned_into_the_same_blocks() -> None:
    before = plan(make_order(["C1"]))
    assert isinstance(before, PlannedClass)
    planner: Planner = make_planner(PROGRAM, make_order(["C1", "C2"], coaches=2))
    after = planner.replan(before.plan)
    assert after is not None
    assert after.plan.people == ("C1", "C2")
    assert [(each.count, each.family) for each in after.plan.blocks] == [
        (each.count, each.family) for each in before.plan.blocks
    ]
    assert after.score.breaches == ()


def test_an_unknown_person_is_an_error() -> None:
    with pytest.raises(KeyError):
        make_planner(PROGRAM, make_order(["C9"]))
