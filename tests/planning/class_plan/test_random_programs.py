"""Plans of random programs, held to rules that are written anew."""

from dataclasses import replace
from random import Random

import pytest

from builder.planning.class_plan.changes import Change
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass
from builder.records.plan import ClassPlan
from tests.planning.class_plan.class_oracle import (
    PersonRules,
    find_broken_rules,
    find_class_seconds,
)
from tests.planning.class_plan.programs import Case, make_case, plan_case
from tests.planning.starter import read_starter
from tests.trying import count_tries

SEEDS = range(count_tries(12, 40))
every_case = pytest.mark.parametrize("seed", SEEDS)


@every_case
def test_a_plan_keeps_every_rule(seed: int) -> None:
    case, planned = plan_case(seed)
    if isinstance(planned, PlannedClass):
        assert list(find_broken_rules(case, planned.plan)) == []
        people = {name: PersonRules(case, name) for name in case.order.people}
        assert planned.score.seconds == find_class_seconds(case, planned.plan, people)
        assert planned.is_proven


@every_case
def test_who_is_said_to_have_nothing_to_do_has_nothing(seed: int) -> None:
    case, planned = plan_case(seed)
    if isinstance(planned, ImpossibleClass):
        for name in planned.idle:
            rules = PersonRules(case, name)
            strands = () if not rules.was_away() else case.order.strands
            allowed = [
                each.id
                for each in read_starter().lessons
                if not [*rules.list_reasons(each)] and (not strands or each.strand.id in strands)
            ]
            assert allowed == []


@every_case
def test_an_impossible_class_is_possible_after_the_change(seed: int) -> None:
    case, planned = plan_case(seed)
    if isinstance(planned, ImpossibleClass) and planned.change:
        changed = apply_to_order(case, planned.change)
        if changed.order.people:
            assert isinstance(changed.plan(), PlannedClass)


@every_case
def test_the_order_of_rows_people_and_props_does_not_matter(seed: int) -> None:
    case, planned = plan_case(seed)
    assert make_case(seed) == case
    again = case.shuffle(Random(seed)).plan()  # noqa: S311  # no secret
    if isinstance(planned, ImpossibleClass):
        assert isinstance(again, ImpossibleClass)
        assert (again.idle, again.change) == (planned.idle, planned.change)
    else:
        assert isinstance(again, PlannedClass)
        assert (again.plan, again.score) == (planned.plan, planned.score)
        assert (again.reasons, again.wishes) == (planned.reasons, planned.wishes)


@every_case
def test_a_plan_changed_at_the_door_keeps_every_rule(seed: int) -> None:
    case, planned = plan_case(seed)
    if isinstance(planned, PlannedClass):
        come = tuple(name for name in case.program.people if name not in case.order.people)
        for people in (case.order.people[1:], (*case.order.people, *come[:1])):
            changed = replace(case, order=replace(case.order, people=people))
            again = changed.make_planner().replan(planned.plan) if people else None
            if again is not None:
                assert list(find_broken_rules(changed, again.plan)) == []


@every_case
def test_a_turn_changed_by_hand_that_breaks_a_rule_is_told(seed: int) -> None:
    case, planned = plan_case(seed)
    random = Random(seed)  # noqa: S311  # no secret
    if isinstance(planned, PlannedClass):
        planner = case.make_planner()
        for _ in range(20):
            plan = change_a_turn(planned.plan, random)
            if list(find_broken_rules(case, plan)):
                assert planner.check(plan).score.breaches


def test_the_cases_hold_both_plans_and_classes_without_one() -> None:
    kinds = [type(plan_case(seed)[1]) for seed in SEEDS]
    assert kinds.count(PlannedClass) > len(SEEDS) / 2
    assert kinds.count(ImpossibleClass) > 0


def change_a_turn(plan: ClassPlan, random: Random) -> ClassPlan:
    """Let one person do any lesson of the course in one block, seen closely or not."""
    number = random.randrange(len(plan.blocks))
    block = plan.blocks[number]
    at = random.randrange(len(block.turns))
    lesson = random.choice(read_starter().lessons).id
    turn = replace(block.turns[at], lesson_id=lesson, has_close_look=random.random() < 0.5)
    turns = (*block.turns[:at], turn, *block.turns[at + 1 :])
    blocks = (*plan.blocks[:number], replace(block, turns=turns), *plan.blocks[number + 1 :])
    return replace(plan, blocks=blocks)


def apply_to_order(case: Case, change: Change) -> Case:
    order = case.order
    counted = {
        name: order.props.get(name, read_starter().vocabulary.props[name].class_set or 0) + more
        for name, more in change.props.items()
    }
    more = tuple(f"more-{number}" for number in range(change.coaches))
    return Case(
        case.program,
        replace(
            order,
            people=tuple(name for name in order.people if name not in change.left_out),
            minutes=order.minutes + change.minutes,
            coaches=(*order.coaches, *more),
            most_new=order.most_new + change.news,
            props={**order.props, **counted},
        ),
    )
