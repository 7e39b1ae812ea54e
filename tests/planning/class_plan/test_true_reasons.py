"""Reasons of whole plans, tried in the records: with the ground gone, the class is better."""

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

from builder.planning.class_plan.explain import Reason
from builder.planning.class_plan.planned import PlannedClass, Planner
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.class_plan.score import Breach, Fault, score_plan
from builder.planning.permission import Barrier, BarrierKind
from builder.records.attendance import Attendance, Outcome
from builder.records.classes_folder import read_classes
from builder.records.person import Person
from builder.records.record_folder import read_records
from builder.records.result import Result
from tests.planning.class_plan.programs import Case, plan_case
from tests.planning.starter import ROOT, read_starter
from tests.trying import is_thorough

SEEDS = (131, 135, 137, 138, 140, 157, 167, 171, 204, 245, 307)


@cache
def list_demo() -> tuple[Case, ...]:
    folder = ROOT / "demo_program"
    records = read_records(folder, read_starter())
    orders, findings = read_classes(folder, records.known)
    assert findings == []
    return tuple(Case(records.program, order) for order in orders)


@pytest.mark.parametrize("number", range(3))
def test_the_reasons_of_the_demo_are_true(number: int) -> None:
    case = list_demo()[number]
    planned = case.plan()
    assert isinstance(planned, PlannedClass)
    assert planned.reasons
    hold_to_all(case, planned if is_thorough() else keep_each_kind(planned))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_reasons_of_random_programs_are_true(seed: int) -> None:
    case, planned = plan_case(seed)
    if isinstance(planned, PlannedClass):
        hold_to_all(case, planned)


def test_reasons_of_many_kinds_were_tried() -> None:
    tried = Counter(
        name_kind(reason)
        for _, planned in map(plan_case, SEEDS)
        if isinstance(planned, PlannedClass)
        for reason in planned.reasons
    )
    assert {Ground.NOT_READY, Ground.BARRED, Fault.PROPS, Fault.CLOSE_LOOKS} <= tried.keys()


def keep_each_kind(planned: PlannedClass) -> PlannedClass:
    """Keep the first reason of each kind; each takes a whole plan to try."""
    first = {name_kind(reason): reason for reason in reversed(planned.reasons)}
    return replace(planned, reasons=tuple(first.values()))


def name_kind(reason: Reason) -> Ground | Fault | None:
    return reason.refusal.ground if reason.refusal else reason.lack and reason.lack.fault


def hold_to_all(case: Case, planned: PlannedClass) -> None:
    """Change in the records what each reason names, and plan again."""
    done: dict[str, tuple[Planner, PlannedClass]] = {}
    for reason in planned.reasons:
        key = repr(reason.refusal or replace(reason.lack or Breach(Fault.EMPTY), block=None))
        planner, after = done.get(key) or plan_with(grant(case, reason))
        done[key] = planner, after
        stands = score_plan(planner.problem, planned.plan)
        assert after.score.points >= stands.points + reason.gain
        assert after.plan != planned.plan


def plan_with(case: Case) -> tuple[Planner, PlannedClass]:
    planner = case.make_planner()
    after = planner.plan()
    assert isinstance(after, PlannedClass)
    return planner, after


def grant(case: Case, reason: Reason) -> Case:
    if reason.refusal is not None:
        return allow(case, reason.refusal)
    assert reason.lack is not None
    return give(case, reason.lack)


def give(case: Case, lack: Breach) -> Case:
    """Give what is lacking, and no more."""
    order, more = case.order, lack.wanted - lack.there
    match lack.fault:
        case Fault.PROPS:
            order = replace(order, props={**order.props, lack.prop_id: lack.wanted})
        case Fault.CLOSE_LOOKS:
            coaches = (*order.coaches, *(f"more-{number}" for number in range(more)))
            order = replace(order, coaches=coaches)
        case Fault.TOO_MANY_NEW:
            order = replace(order, most_new=order.most_new + more)
        case _:
            order = replace(order, minutes=order.minutes + -(-more // 60))
    return replace(case, order=order)


def allow(case: Case, refusal: Refusal) -> Case:
    """Take the ground of a refusal away."""
    who, lesson = refusal.person_id, read_starter().by_id[refusal.version.lesson_id]
    match refusal.ground:
        case Ground.NOT_READY:
            return show(case, who, refusal.missing)
        case Ground.TOO_MUCH:
            return show(case, who, lesson.easier)
        case Ground.REST_DAY:
            return put_off(case, who, 1)
        case Ground.NOT_ASKED:
            strands = (*case.order.strands, lesson.strand.id)
            return replace(case, order=replace(case.order, strands=strands))
        case Ground.BARRED:
            for barrier in refusal.barriers:
                case = lift(case, who, barrier)
            return case


def show(case: Case, who: str, lessons: tuple[str, ...]) -> Case:
    """Record each lesson as ready on two days, after all that was recorded before."""
    rows = tuple(
        Attendance(case.order.day - timedelta(days=back), who, lesson, Outcome.READY)
        for back in (3, 2)
        for lesson in lessons
    )
    case = put_off(case, who, 3)
    program = replace(case.program, attendance=(*case.program.attendance, *rows))
    return replace(case, program=program)


def put_off(case: Case, who: str, days: int) -> Case:
    """Let all that somebody did be some days longer ago."""
    rows = tuple(
        replace(row, day=row.day - timedelta(days=days if row.person_id == who else 0))
        for row in case.program.attendance
    )
    return replace(case, program=replace(case.program, attendance=rows))


def lift(case: Case, who: str, barrier: Barrier) -> Case:
    """Answer what a barrier asks; a condition that stops is taken away, as no answer lifts it."""
    person, program = case.program.people[who], case.program
    if barrier.kind is BarrierKind.HOLD:
        seconds = 2 * (barrier.hold_seconds or 0)
        day = case.order.day - timedelta(days=1)
        held = Result(day, who, "breath-hold-seconds", None, seconds, lesson_id="comfortable-hold")
        others = [row for row in program.results if (row.person_id, row.day) != (who, day)]
        return replace(case, program=replace(program, results=(*others, held)))
    if barrier.kind is BarrierKind.ANSWER:
        kept = tuple(
            row
            for row in program.results
            if (row.person_id, row.measure_id) != (who, barrier.question_id)
        )
        return replace(case, program=replace(program, results=kept))
    changed = answer(person, barrier, case.order.day)
    return replace(case, program=replace(program, people={**program.people, who: changed}))


def answer(person: Person, barrier: Barrier, day: date) -> Person:
    if barrier.kind is BarrierKind.ASK_FIRST:
        return replace(person, cleared={**person.cleared, **dict.fromkeys(barrier.conditions, day)})
    if barrier.kind is BarrierKind.AIR:
        return replace(person, lung_reference=None)
    kept = tuple(name for name in person.conditions if name not in barrier.conditions)
    return replace(person, conditions=kept)
