"""Moves in words: trunk, limbs and what presses, each told once and on its breath."""

from dataclasses import replace

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Stance
from builder.course.pose import Arm, Leg, Spine
from builder.drawing.figure.move_words import name_moves, name_presses
from builder.drawing.figure.stage import set_scenes
from builder.drawing.labels import ENGLISH


def moves(figure) -> list[str]:
    return name_moves(*set_scenes(figure), ENGLISH.language)


def test_both_limbs_that_go_the_same_way_are_told_at_once(make_figure) -> None:
    arms = {"left_arm": Arm(lift=150), "right_arm": Arm(lift=150)}
    assert moves(make_figure("dead-bug", **arms)) == ["both arms reach past the head"]


@pytest.mark.parametrize(("tuck", "words"), [(12, "the tail tucks"), (-12, "the tail rolls back")])
def test_a_tail_tucks_or_rolls_back(make_figure, tuck: float, words: str) -> None:
    assert moves(make_figure(spine=Spine(nod=8, tuck=tuck))) == [words]


@pytest.mark.parametrize(
    ("lean", "words"), [(25, "the body tips forward"), (-25, "the body straightens")]
)
def test_an_upright_body_tips_and_straightens(make_figure, lean: float, words: str) -> None:
    figure = make_figure("standing")
    tipped = replace(figure.exhale.pose, lie=replace(figure.exhale.pose.lie, lean=25))
    bent = replace(figure.exhale, pose=tipped)
    pair = {"exhale": bent} if lean > 0 else {"inhale": bent}
    assert words in moves(replace(figure, **pair))


def test_a_step_goes_forward_and_not_up(make_figure) -> None:
    told = moves(make_figure("standing", left_leg=Leg(hip=22, knee=4)))
    assert any(
        words in ("the left leg moves forward", "the right leg moves back") for words in told
    )
    assert not any("lifts" in words for words in told)


def test_another_position_is_told_alone(make_figure) -> None:
    base = BASE_POSES["all-fours"]
    figure = make_figure("half-kneeling")
    down = replace(figure, exhale=Stance("all-fours", base.pose, base.contacts))
    assert moves(down) == ["the body comes onto hands and knees"]


ALL = ("left-hand", "right-hand", "left-knee", "right-knee")


@pytest.mark.parametrize(
    ("press", "ball", "words"),
    [
        (ALL, True, "both hands and both thighs press the ball"),
        (("left-hand",), True, "the left hand presses the ball"),
        (("left-knee", "right-knee"), False, "both knees press outwards"),
    ],
)
def test_what_presses_is_told(make_figure, press, ball: bool, words: str) -> None:
    figure = make_figure("dead-bug", props={"ball": "pinned"} if ball else {})
    out = replace(figure, exhale=replace(figure.exhale, press=press))
    _, exhale = scenes = set_scenes(out)
    assert list(name_presses(*scenes, ENGLISH.language)) == [(exhale, words)]
    always = replace(out, inhale=replace(out.inhale, press=press))
    assert list(name_presses(*set_scenes(always), ENGLISH.language)) == [(None, words)]
