"""A class plan in words: what is shared, who does what and why, and what would help."""

from dataclasses import replace
from functools import cache

import pytest

from builder.planning.class_plan.changes import Change
from builder.planning.class_plan.explain import Reason
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass
from builder.planning.class_plan.problem import Version
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.class_plan.score import Breach, Fault
from builder.planning.class_plan.wishes import Wish
from builder.records.person import Person
from builder.report.class_words import PlanView, clock, say_proof, write_class, write_impossible
from builder.report.lack_words import say_breach, say_change, say_reason, say_refusal, say_wish
from tests.planning.class_plan.starter_class import (
    did_all,
    make_order,
    make_planner,
    make_program,
)
from tests.planning.starter import read_starter

VERSION = Version("roll", "front-line", "4-1-4-1", "lying", True, 100, 20)
PEOPLE = (
    Person("C1", "Cy", conditions=("reflux",)),
    Person("C2", "Col", conditions=("back-pain",)),
    Person("C3", "Cleo", conditions=("pregnancy",)),
)
PROGRAM = make_program(PEOPLE, [*did_all("C1", "tail-tuck"), *did_all("C2", "tail-tuck")])


def plan(*people: str, coaches: int = 1) -> PlannedClass | ImpossibleClass:
    order = make_order(people, minutes=40, coaches=coaches, strands=["breath", "brace"])
    return make_planner(PROGRAM, order).plan()


@cache
def plan_two() -> PlannedClass:
    planned = plan("C1", "C2")
    assert isinstance(planned, PlannedClass)
    return planned


def write(planned: PlannedClass) -> str:
    return write_class(PlanView(read_starter(), PROGRAM.people, planned), [say_proof(planned)])


@pytest.mark.parametrize(
    ("breach", "sentence"),
    [
        (Breach(Fault.EMPTY), "it has no blocks: add one"),
        (Breach(Fault.WRONG_PEOPLE, 2), "block 2: it needs one turn for each person of the class"),
        (Breach(Fault.NOT_ALLOWED, 1, "C1", "roll"), "block 1: C1 may not do Dead bug roll today"),
        (Breach(Fault.WRONG_COUNT, 1, "C1", "roll"),
         "block 1: Dead bug roll of C1 has another count"),
        (Breach(Fault.WRONG_FAMILY, 1, "C1", "roll"),
         "block 1: Dead bug roll of C1 is done in another position"),
        (Breach(Fault.TOO_OFTEN, None, "C1", "roll", wanted=3, there=2),
         "C1 does Dead bug roll 3 times, and 2 are the most"),
        (Breach(Fault.TOO_OFTEN, None, "C1", "roll", wanted=2, there=1),
         "C1 does Dead bug roll 2 times, and once is the most"),
        (Breach(Fault.TOO_MANY_NEW, None, "C1", wanted=3, there=2),
         "3 lessons are new to C1 and 2 are the most"),
        (Breach(Fault.NO_LOOK_AT_NEW, 1, "C1", "roll"),
         "block 1: Dead bug roll is new to C1 and needs a close look: set look: true"),
        (Breach(Fault.PROPS, 2, prop_id="ball", wanted=2, there=1),
         "block 2: 2 × soft ball: 1 is there"),
        (Breach(Fault.PROPS, 2, prop_id="ball", wanted=3, there=2),
         "block 2: 3 × soft ball: 2 are there"),
        (Breach(Fault.CLOSE_LOOKS, 1, wanted=2, there=1),
         "block 1: 2 close looks, and 1 can be given"),
        (Breach(Fault.NO_WARM_UP, 1), "block 1: it is work, and a class begins with a quiet block"),
        (Breach(Fault.TOO_MANY_BLOCKS, wanted=9, there=8), "it has 9 blocks, and 8 are the most"),
        (Breach(Fault.TIME, wanted=3661, there=3600), "it is 2 minutes too long"),
    ],
)  # fmt: skip
def test_each_fault_has_its_sentence(breach: Breach, sentence: str) -> None:
    assert say_breach(read_starter(), breach) == sentence


def test_every_fault_is_said() -> None:
    said = {say_breach(read_starter(), Breach(fault, 1, "C1", "roll", "ball")) for fault in Fault}
    assert len(said) == len(Fault)


@pytest.mark.parametrize(
    ("ground", "missing", "sentence"),
    [
        (Ground.NOT_READY, ("diagonal",), "not ready yet in Dead bug, opposite limbs"),
        (Ground.TOO_MUCH, (), "it was too much twice in a row, so something easier comes first"),
        (Ground.REST_DAY, (), "a day of rest after yesterday's work"),
        (Ground.NOT_ASKED, (), "its strand isn't among those of the class"),
    ],
)
def test_each_ground_has_its_sentence(
    ground: Ground, missing: tuple[str, ...], sentence: str
) -> None:
    refusal = Refusal("C1", VERSION, ground, missing)
    titles = {"diagonal": read_starter().by_id["diagonal"].title}
    wanted = sentence.replace("Dead bug, opposite limbs", titles["diagonal"])
    assert say_refusal(read_starter(), refusal) == wanted


@pytest.mark.parametrize(
    ("lack", "sentence"),
    [
        (Breach(Fault.PROPS, 2, prop_id="ball"), "no soft ball left in block 2"),
        (Breach(Fault.CLOSE_LOOKS, 3), "it would be new, and no close look is left in block 3"),
        (Breach(Fault.TOO_MANY_NEW, there=2), "2 new lessons in one class are enough"),
        (Breach(Fault.TOO_MANY_NEW, there=1), "1 new lesson in one class is enough"),
        (Breach(Fault.TOO_MANY_NEW, there=0), "this class has nothing new for anybody"),
        (Breach(Fault.TIME, wanted=3610, there=3600), "the class would be 1 minute too long"),
    ],
)
def test_each_lack_has_its_sentence(lack: Breach, sentence: str) -> None:
    reason = Reason(2, "C1", "even-count", "roll", 5, lack=lack)
    assert say_reason(read_starter(), reason) == f"not Dead bug roll: {sentence}"


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (None, "no more time, props or coaches would help"),
        (Change(), "there is room for it, at the cost of more elsewhere"),
        (Change(minutes=1), "1 minute more would allow it"),
        (Change(minutes=5, coaches=1), "5 minutes more and 1 more coach would allow it"),
        (Change(props={"ball": 2}, is_smallest=False),
         "2 more soft ball would allow it, or less"),
        (Change(left_out=("C1", "C2")), "the class without C1, C2 would allow it"),
        (Change(news=1), "1 more new for each person would allow it"),
    ],
)  # fmt: skip
def test_each_change_has_its_sentence(change: Change | None, sentence: str) -> None:
    assert say_change(read_starter(), change) == sentence


def test_a_wish_says_who_stands_in_the_way() -> None:
    wish = Wish("front-line", ("C1",), None, ("C2", "C3"))
    said = say_wish(read_starter(), wish)
    assert said.endswith("for C1: C2, C3 would have nothing to do in such a block")


def test_a_plan_says_what_is_shared_and_what_each_does() -> None:
    text = write(plan_two())
    lines = text.splitlines()
    assert lines[0] == "Tuesday 24 November 2026, small: 2 people, 40 minutes, 1 coach"
    assert lines[1].startswith("To lay out: mat × 1, pillow × 2, chair × 1")
    first = lines.index(" 1:30  Block 1: lying down, own pace, 2 min")
    assert [line[7:14] for line in lines[first + 1 : first + 3]] == ["C1 Cy: ", "C2 Col:"]
    assert text.endswith(read_starter().settings.caution.strip())


def test_no_plan_leaves_without_the_cautions_of_its_people() -> None:
    text = write(plan_two())
    said = text[text.index("Cautions for C1 Cy") :]
    assert "reflux: Wait, or do the same breathing sitting." in said
    for block in plan_two().plan.blocks:
        for turn in block.turns:
            if plan_two().guests[turn.person_id].adaptations.get(turn.lesson_id):
                title = read_starter().by_id[turn.lesson_id].title
                assert title in said or "All of it" in said


def test_the_same_reason_is_told_once() -> None:
    planned = plan_two()
    lack = Breach(Fault.CLOSE_LOOKS, 1)
    first = Reason(1, "C1", "belly-breath", "tail-tuck", 5, lack=lack)
    again = replace(first, block=2, lack=replace(lack, block=2))
    other = replace(first, block=2, person_id="C2", lack=replace(lack, block=2))
    text = write(replace(planned, reasons=(first, again, other)))
    assert text.count("no close look is left in block 1") == 1
    assert text.count("no close look is left in block 2") == 1


def test_the_proof_says_how_sure_it_is() -> None:
    planned = plan_two()
    assert "Proven best: no plan" in say_proof(planned)
    more = replace(planned, bound=planned.score.points + 3)
    assert "Not proven: another plan may be worth up to 3 more" in say_proof(more)
    checked = say_proof(replace(planned, bound=None))
    assert checked.endswith(f"is worth {planned.score.points} points (ours).")


def test_who_may_do_nothing_is_told_why() -> None:
    impossible = plan("C1", "C3")
    assert isinstance(impossible, ImpossibleClass)
    assert write_impossible(read_starter(), impossible).splitlines() == [
        "There is no plan for 2026-11-24-small.",
        "  C3 may do nothing of it today: no clinician's answer on record for pregnancy: "
        "a licensed clinician comes first",
        "  the class without C3 would allow it",
    ]


@pytest.mark.parametrize(("seconds", "text"), [(0, " 0:00"), (90, " 1:30"), (3599, "59:59")])
def test_times_are_minutes_and_seconds(seconds: int, text: str) -> None:
    assert clock(seconds) == text
