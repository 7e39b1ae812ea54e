"""The overview of a person: placement, record and permission together, and what to look at."""

import pytest

from builder.errors import BuilderError
from builder.planning.look_at import LookKind
from builder.planning.overview import PersonOverview, find_person, survey_person
from builder.planning.permission import AdaptationKind
from builder.planning.progress import Direction, ReasonKind
from builder.records.attendance import Attendance, Outcome
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result, Side
from tests.planning.rows import do, on
from tests.planning.starter import make_person, make_result, read_starter

CHECKS = (
    *do("ready-to-start", "r"),
    *do("hands-check-sitting", "r"),
    *do("hands-check-lying", "r"),
)


def survey(
    person: Person,
    attendance: tuple[Attendance, ...] = (),
    results: tuple[Result, ...] = (),
    day: int = 20,
) -> PersonOverview:
    program = Program({person.id: person}, results, attendance)
    return survey_person(read_starter(), program, person, on(day))


def list_kinds(overview: PersonOverview) -> list[LookKind]:
    return list(dict.fromkeys(look.kind for look in overview.looks))


def test_somebody_new_begins_with_the_first_check_and_the_first_breath() -> None:
    overview = survey(make_person())
    ways = {each.strand_id: (each.direction, each.lesson_id) for each in overview.progress}
    assert ways["first-checks"] == (Direction.START, "ready-to-start")
    assert ways["breath"] == (Direction.START, "belly-breath")
    assert ways["brace"] == (Direction.WAIT, "")


@pytest.mark.parametrize("condition", ["pregnancy", "high-blood-pressure", "thin-bones"])
def test_without_a_clinicians_answer_every_strand_waits(condition: str) -> None:
    overview = survey(make_person(condition), CHECKS)
    assert {each.direction for each in overview.progress} == {Direction.WAIT}
    assert ReasonKind.BARRED in {each.reasons[0].kind for each in overview.progress}
    assert (overview.retests, overview.rests) == ((), {})
    assert list_kinds(overview) == [LookKind.CONDITION]


def test_an_answer_opens_what_notices_then_adapt() -> None:
    overview = survey(make_person("pregnancy", cleared={"pregnancy": on(0)}), CHECKS)
    assert overview.uncleared == ()
    assert any(each.lesson_id == "belly-breath" for each in overview.progress)
    kinds = {look.adaptation.kind for look in overview.looks if look.adaptation}
    assert AdaptationKind.ADAPT in kinds


def test_an_answer_of_a_later_day_is_none_yet() -> None:
    person = make_person("pregnancy", cleared={"pregnancy": on(30)})
    assert survey(person).uncleared == ("pregnancy",)


def test_what_to_look_at_comes_in_a_fixed_order() -> None:
    results = (
        *(make_result("chest-expansion-cm", 2.4, day=on(day)) for day in (0, 1)),
        make_result("rib-sides", "left first", "rib-sides-check", on(1)),
    )
    overview = survey(make_person("reflux"), (*CHECKS, *do("belly-breath", "aaa")), results)
    assert list_kinds(overview) == list(LookKind)
    stuck = next(look for look in overview.looks if look.kind is LookKind.STUCK)
    assert stuck.lesson_id == "belly-breath"
    weaker = next(look for look in overview.looks if look.kind is LookKind.WEAKER_SIDE)
    assert weaker.side is Side.RIGHT
    watch_for = [look.text for look in overview.looks if look.lesson_id == "belly-breath"]
    assert set(read_starter().by_id["belly-breath"].words.watch_for) <= set(watch_for)


def test_the_weaker_side_shares_out_the_sets_of_a_lesson_on_each_side() -> None:
    results = (make_result("rib-sides", "right first", "rib-sides-check", on(0)),)
    drills = [each.id for each in read_starter().lessons_of("breath")]
    drills.remove("weak-side-breath")
    rows = [
        *CHECKS,
        *do("rib-sides-check", "r"),
        *(row for name in drills for row in do(name, "rr")),
    ]
    overview = survey(make_person(), tuple(rows), results)
    plan = overview.side_plans["weak-side-breath"]
    assert (plan.first, plan.weaker_sets, plan.stronger_sets) == (Side.LEFT, 3, 2)


@pytest.mark.parametrize(("more", "day"), [("", 90), ("ee", 20)])
def test_an_absence_or_a_setback_leaves_the_start_where_it_was(more: str, day: int) -> None:
    rows = tuple(do("brace-and-breathe", f"rr{more}"))
    before = survey(make_person(), rows[:2], day=10)
    after = survey(make_person(), rows, day=day)
    assert "tail-tuck" in before.standing.known
    assert "tail-tuck" in after.standing.known
    assert after.starts == before.starts
    assert "brace-and-breathe" not in after.standing.known


def test_rows_of_later_days_and_other_people_count_for_nothing() -> None:
    later = tuple(do("belly-breath", "rr", start=30))
    theirs = Attendance(on(1), "someone", "belly-breath", later[0].outcome)
    results = (make_result("breath-hold-seconds", 9, day=on(25)),)
    assert survey(make_person(), (*later, theirs), results) == survey(make_person())


def test_an_unknown_id_is_answered_with_the_nearest_one() -> None:
    program = Program({"ro-1": make_person()})
    with pytest.raises(BuilderError, match=r'no.* "r0-1"; write "ro-1" if that is meant'):
        find_person(program, "r0-1")
    with pytest.raises(BuilderError, match="use one of ro-1"):
        find_person(program, "zzz")
    with pytest.raises(BuilderError, match='the row of "x" has faults'):
        find_person(program, "x", {"x"})


@pytest.mark.parametrize(
    "later", [do("hands-check-lying", "r", start=50), do("side-rib-breath", "ee", start=6)]
)
def test_whoever_comes_back_rests_as_long_as_the_lesson_says(
    later: list[Attendance],
) -> None:
    rows = [
        Attendance(on(offset), "ro-1", "belly-breath", Outcome.READY, rest_seconds=20)
        for offset in (2, 4)
    ]
    day = (later[-1].day - on(0)).days + 1
    overview = survey(make_person(), (*CHECKS, *rows, *later), day=day)
    ways = {each.lesson_id: each.direction for each in overview.progress}
    assert ways["belly-breath"] is Direction.BACK
    assert overview.rests["belly-breath"].seconds == 30
