"""Arrange: lessons dealt out to single blocks, in the order of a class."""

from dataclasses import replace

from builder.planning.class_plan.arrange import Choice, arrange
from builder.planning.class_plan.kinds import Kind
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.score import score_plan
from builder.records.plan import OWN_PACE
from tests.planning.class_plan.test_score import COUNT, NEW, PROBLEM, QUIET, WORK

CALM = Kind("lying", False, COUNT, 2)
BUSY = Kind("lying", True, COUNT, 3)


def test_one_ball_goes_from_hand_to_hand() -> None:
    lessons = {(BUSY, who): ("breathe", "press") for who in PROBLEM.people}
    plan = arrange(PROBLEM, Choice({BUSY: 2}, lessons))
    assert plan is not None
    with_ball = [[turn.lesson_id for turn in block.turns].count("press") for block in plan.blocks]
    assert with_ball == [1, 1]


def test_what_cannot_be_dealt_out_is_no_plan() -> None:
    lessons = {(BUSY, who): ("press",) for who in PROBLEM.people}
    assert arrange(PROBLEM, Choice({BUSY: 1}, lessons)) is None


def test_two_new_lessons_wait_for_one_coach() -> None:
    lessons = {(CALM, who): ("breathe", "turn") for who in PROBLEM.people}
    plan = arrange(PROBLEM, Choice({CALM: 2}, lessons))
    assert plan is not None
    looks = [
        [turn.person_id for turn in block.turns if turn.has_close_look] for block in plan.blocks
    ]
    assert sorted(looks) == [["C1"], ["C2"]]
    assert score_plan(PROBLEM, plan).breaches == ()


def test_quiet_comes_before_work_and_lying_before_standing() -> None:
    upright = Kind("upright", False, COUNT, 2)
    free = replace(CALM, count=OWN_PACE)
    blocks = {upright: 1, BUSY: 1, CALM: 1, free: 1}
    lessons = {(kind, who): ("breathe",) for kind in blocks for who in PROBLEM.people}
    lessons |= {(upright, who): ("stand",) for who in PROBLEM.people}
    plan = arrange(PROBLEM, Choice(blocks, lessons))
    assert plan is not None
    frames = [(block.family, block.count) for block in plan.blocks]
    assert frames == [
        ("lying", OWN_PACE), ("lying", COUNT), ("lying", COUNT), ("upright", COUNT)
    ]  # fmt: skip


def test_a_position_with_nothing_quiet_does_not_come_first() -> None:
    upright = Kind("upright", False, COUNT, 2)
    problem = only_work_lying()
    lessons = {(BUSY, "C1"): ("press",), (BUSY, "C2"): ("turn",)}
    lessons |= {(upright, who): ("stand",) for who in problem.people}
    plan = arrange(problem, Choice({BUSY: 1, upright: 1}, lessons))
    assert plan is not None
    assert [block.family for block in plan.blocks] == ["upright", "lying"]


def only_work_lying() -> ClassProblem:
    """Return the problem without a quiet lesson lying down, but for one at one's own pace."""
    own = tuple(each for each in PROBLEM.versions["C1"] if each is not QUIET)
    assert WORK in own
    assert NEW in own
    return replace(PROBLEM, versions=dict.fromkeys(PROBLEM.people, own))
