"""Score: each rule that a plan can break, by a plan made for it; and what a plan is worth."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import BlockTime, Breach, Fault, Score, score_plan
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn

COUNT = "4-1-4-1"
QUIET = Version("breathe", "breath", COUNT, "lying", False, 100, worth.PRACTICE)
WORK = Version("press", "front", COUNT, "lying", True, 170, worth.KNOWN, props=(("ball", 1),))
NEW = Version("turn", "stretch", OWN_PACE, "lying", False, 60, worth.STEP, is_new=True)
STAND = Version("stand", "load", COUNT, "upright", False, 100, worth.KNOWN)
ONCE = replace(QUIET, lesson_id="once", most_times=1)
PROBLEM = ClassProblem(
    people=("C1", "C2"),
    versions=dict.fromkeys(("C1", "C2"), (QUIET, WORK, NEW, STAND, ONCE)),
    families=("lying", "upright"),
    seconds=900,
    most_blocks=3,
    close_looks=1,
    most_new=1,
    props={"ball": 1},
    set_up_seconds=30,
    rest_seconds=60,
)


def block(first: str, second: str, look: str = "", *, family: str = "lying") -> PlannedBlock:
    """Let C1 and C2 do a lesson each; a coach looks at those named."""
    return PlannedBlock(
        COUNT, family, (Turn("C1", first, "C1" in look), Turn("C2", second, "C2" in look))
    )


def weigh(*blocks: PlannedBlock, problem: ClassProblem = PROBLEM) -> Score:
    return score_plan(problem, ClassPlan("", ("C1", "C2"), blocks))


BOTH_BREATHE = block("breathe", "breathe")


@pytest.mark.parametrize(
    ("blocks", "breach"),
    [
        ((), Breach(Fault.EMPTY)),
        ((block("breathe", "press"),), Breach(Fault.NO_WARM_UP, 1)),
        ((BOTH_BREATHE,) * 2 + (block("stand", "stand", family="upright"),) * 2,
         Breach(Fault.TOO_MANY_BLOCKS, wanted=4, there=3)),
        ((block("breathe", "box"),), Breach(Fault.NOT_ALLOWED, 1, "C2", "box")),
        ((block("breathe", "stand"),), Breach(Fault.WRONG_FAMILY, 1, "C2", "stand")),
        ((block("breathe", "turn"),), Breach(Fault.NO_LOOK_AT_NEW, 1, "C2", "turn")),
        ((BOTH_BREATHE, block("press", "press")),
         Breach(Fault.PROPS, 2, prop_id="ball", wanted=2, there=1)),
        ((block("breathe", "breathe", "C1 C2"),),
         Breach(Fault.CLOSE_LOOKS, 1, wanted=2, there=1)),
        ((BOTH_BREATHE, BOTH_BREATHE, block("breathe", "press")),
         Breach(Fault.TOO_OFTEN, person_id="C1", lesson_id="breathe", wanted=3, there=2)),
        ((BOTH_BREATHE, block("once", "breathe"), block("once", "press")),
         Breach(Fault.TOO_OFTEN, person_id="C1", lesson_id="once", wanted=2, there=1)),
    ],
)  # fmt: skip
def test_each_rule_is_told_with_its_place(blocks: tuple[PlannedBlock, ...], breach: Breach) -> None:
    assert weigh(*blocks).breaches == (breach,)


@pytest.mark.parametrize(
    ("change", "breach"),
    [
        (lambda problem: replace(problem, seconds=200),
         Breach(Fault.TIME, wanted=210, there=200)),
        (lambda problem: replace(problem, people=("C1", "C2", "C3"),
                                 versions={**problem.versions, "C3": (QUIET,)}),
         Breach(Fault.WRONG_PEOPLE, 1)),
    ],
)  # fmt: skip
def test_a_class_that_changed_breaks_an_earlier_plan(
    change: Callable[[ClassProblem], ClassProblem], breach: Breach
) -> None:
    assert weigh(BOTH_BREATHE, problem=change(PROBLEM)).breaches == (breach,)


def test_more_new_lessons_than_a_class_allows_are_told() -> None:
    other = replace(NEW, lesson_id="roll")
    problem = replace(PROBLEM, versions={**PROBLEM.versions, "C1": (QUIET, NEW, other)})
    score = weigh(block("turn", "breathe", "C1"), block("roll", "breathe", "C1"), problem=problem)
    assert score.breaches == (Breach(Fault.TOO_MANY_NEW, person_id="C1", wanted=2, there=1),)


def test_a_count_is_kept_by_all_but_those_at_their_own_pace() -> None:
    other = replace(QUIET, lesson_id="box", count="4-4-4-4")
    problem = replace(PROBLEM, versions={**PROBLEM.versions, "C1": (other,)})
    score = weigh(block("box", "turn", "C2"), problem=problem)
    assert score.breaches == (Breach(Fault.WRONG_COUNT, 1, "C1", "box"),)


def test_a_class_takes_set_up_minutes_rests_after_work_and_ways() -> None:
    score = weigh(
        BOTH_BREATHE, block("breathe", "press"), block("stand", "stand", family="upright")
    )
    assert score.times == (
        BlockTime(90, 2, 0, False),
        BlockTime(240, 3, 60, True),
        BlockTime(570, 2, 0, False),
    )
    assert score.seconds == 690


def test_points_add_up() -> None:
    """All of it by hand: a stay, both strands missed twice, nobody seen but C2, one waits 40 s."""
    score = weigh(block("breathe", "turn", "C2"))
    lessons = worth.PRACTICE + worth.STEP + worth.OWN_PACE
    waiting = 2 * worth.IDLE  # 60 of 120 seconds for the turn; 20 for the other are under 30
    missed = 2 * worth.MISSED_STRAND
    assert score.points == lessons + waiting + missed + worth.CHANGE + worth.NO_CLOSE_LOOK


def test_the_same_once_more_is_worth_little_and_a_changed_one_less() -> None:
    again = weigh(BOTH_BREATHE, BOTH_BREATHE).points - weigh(BOTH_BREATHE).points
    assert again == 2 * worth.REPEAT
    adapted = replace(QUIET, is_adapted=True)
    problem = replace(PROBLEM, versions={**PROBLEM.versions, "C1": (adapted,)})
    plain = replace(PROBLEM, versions={**PROBLEM.versions, "C1": (QUIET,)})
    less = weigh(BOTH_BREATHE, problem=problem).points - weigh(BOTH_BREATHE, problem=plain).points
    assert less == worth.ADAPTED
