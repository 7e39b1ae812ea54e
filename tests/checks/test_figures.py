"""Figures: each fault of a drawn body is told once, with its breath, its place and a cure."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

import pytest

from builder.checks import figures
from builder.checks.registry import CHECKS
from builder.course.base_poses import BASE_POSES
from builder.course.course import Course
from builder.course.figure import Figure, Stance, View
from builder.course.lesson import Limb
from builder.course.pose import Arm, Leg, Spine
from builder.findings import Finding
from builder.reading.course_folder import read_course
from builder.rules import RULES

PLACES = {
    "figure": (9, 1),
    "figure.hands": (10, 3),
    "figure.hands.left": (10, 10),
    "figure.start": (11, 3),
    "figure.start.legs.knee": (11, 20),
    "figure.inhale": (12, 3),
    "figure.inhale.left_leg.knee": (12, 30),
    "position": (6, 1),
}
"""Where a header's figure says what."""


def stand(base: str, **changes: Arm | Leg | Spine) -> Stance:
    pose = BASE_POSES[base]
    return Stance(base, replace(pose.pose, **changes), pose.contacts)


def draw(change_lesson, inhale: Stance, exhale: Stance | None = None, **parts: object) -> Course:
    """Return the small course with a figure on one lesson, as if its header gave it."""
    figure = Figure(View.SIDE, inhale, exhale or inhale, (), {})
    return change_lesson(figure=figure, positions=parts.pop("positions", PLACES), **parts)


def found(find: Callable[[Course], Iterable[Finding]], course: Course) -> list[str]:
    return [
        f"{finding.place.line}:{finding.place.column} {finding.fact}; {finding.cure}"
        for finding in find(course)
    ]


def with_hand(stance: Stance, place: str) -> Stance:
    return replace(stance, contacts=replace(stance.contacts, hands={"left": place}))


def test_every_figure_rule_is_checked() -> None:
    checked = {rule for check in CHECKS for rule in check.rules}
    assert {rule for rule in RULES if rule.id.startswith("F")} <= checked


@pytest.mark.parametrize("base", sorted(BASE_POSES))
def test_a_base_pose_breaks_no_rule(change_lesson, base: str) -> None:
    course = draw(change_lesson, stand(base))
    for find in (
        figures.find_joints_beyond_limits,
        figures.find_sunk_bodies,
        figures.find_missed_contacts,
        figures.find_breaths_alike,
        figures.find_limbs_unlike_moving,
    ):
        assert found(find, course) == []


def test_a_lesson_without_a_figure_breaks_no_figure_rule(small_course) -> None:
    assert found(figures.find_joints_beyond_limits, small_course) == []
    assert found(figures.find_breaths_alike, small_course) == []


def test_a_joint_beyond_its_range_is_told_where_it_is_written(change_lesson) -> None:
    bent = stand("dead-bug", left_leg=Leg(hip=90, knee=141))
    assert found(
        figures.find_joints_beyond_limits, draw(change_lesson, bent, stand("dead-bug"))
    ) == [
        '12:30 on the in-breath, "knee" of the left leg is at 141 degrees, '
        "outside its range of 0 to 140; give an angle within it"
    ]


def test_one_fault_of_both_breaths_is_told_once(change_lesson) -> None:
    bent = stand("dead-bug", right_leg=Leg(hip=90, knee=150.25))
    assert found(figures.find_joints_beyond_limits, draw(change_lesson, bent)) == [
        '11:20 on both breaths, "knee" of the right leg is at 150.2 degrees, '
        "outside its range of 0 to 140; give an angle within it"
    ]


def test_two_angles_of_two_breaths_are_told_apart(change_lesson) -> None:
    bent = [stand("dead-bug", spine=Spine(turn=turn)) for turn in (40, -50)]
    assert found(figures.find_joints_beyond_limits, draw(change_lesson, *bent)) == [
        '12:3 on the in-breath, "turn" of the spine is at 40 degrees, '
        "outside its range of -30 to 30; give an angle within it",
        '9:1 on the out-breath, "turn" of the spine is at -50 degrees, '
        "outside its range of -30 to 30; give an angle within it",
    ]


def test_a_joint_that_a_contact_bends_too_far_is_told_with_the_way_out(change_lesson) -> None:
    tilted = stand("standing", left_leg=Leg(hip=25, knee=50))
    (told,) = found(figures.find_joints_beyond_limits, draw(change_lesson, tilted))
    assert told == (
        '9:1 on both breaths, reaching its place bends "ankle" of the left leg to 25 degrees, '
        'outside its range of -45 to 20; change the joints above it, or name "left-foot" in "free"'
    )


def test_a_hand_that_bends_an_elbow_too_far_asks_for_another_place(change_lesson) -> None:
    turned = stand("rest-pose", spine=Spine(tuck=2, curl=-30, turn=30, nod=-20))
    (told,) = found(figures.find_joints_beyond_limits, draw(change_lesson, turned))
    assert told.startswith(
        '9:1 on both breaths, reaching its place bends "elbow" of the right arm to 14'
    )
    assert told.endswith(
        'outside its range of 0 to 145; give the hand another place, or name "right-hand" in "free"'
    )


def test_a_written_angle_that_a_contact_mends_is_no_fault(change_lesson) -> None:
    level = stand("standing", left_leg=Leg(ankle=60))
    assert found(figures.find_joints_beyond_limits, draw(change_lesson, level)) == []


def test_without_a_figure_in_the_header_the_position_is_told(change_lesson) -> None:
    bent = stand("dead-bug", spine=Spine(nod=50))
    course = draw(change_lesson, bent, positions={"position": (6, 1)})
    assert found(figures.find_joints_beyond_limits, course)[0].startswith("6:1 ")


def test_one_sunk_limb_is_under_the_floor_and_several_are(change_lesson) -> None:
    one = stand("back-legs-long", left_leg=Leg(knee=40))
    two = stand("back-legs-long", left_leg=Leg(knee=40), right_leg=Leg(knee=40))
    cure = 'bend a joint of that limb, or start from another base pose under "pose"'
    assert found(figures.find_sunk_bodies, draw(change_lesson, one, two)) == [
        f"12:3 on the in-breath, the left foot is under the floor; {cure}",
        f"9:1 on the out-breath, the left foot and right foot are under the floor; {cure}",
    ]


def test_half_a_millimetre_on_a_card_is_the_most_that_may_sink(change_lesson) -> None:
    def sink(degrees: float) -> list[str]:
        stance = stand("back-legs-long", left_leg=Leg(hip=2, knee=degrees, ankle=-45))
        return found(figures.find_sunk_bodies, draw(change_lesson, stance))

    assert pytest.approx(0.5 / 40) == figures.TOLERANCE
    assert sink(0) == []
    assert sink(15) != []


def test_a_hand_that_misses_its_place_is_told_by_the_place(change_lesson) -> None:
    far = with_hand(stand("back-legs-long"), "thigh")
    assert found(figures.find_missed_contacts, draw(change_lesson, far)) == [
        '10:10 on both breaths, the left hand doesn\'t reach "thigh"; '
        'give it another place, or name "left-hand" in "free"'
    ]


def test_a_foot_that_misses_the_floor_is_told(change_lesson) -> None:
    lifted = stand("back-knees-bent", right_leg=Leg(hip=100, knee=90))
    resting = stand("back-knees-bent")
    assert found(figures.find_missed_contacts, draw(change_lesson, lifted, resting)) == [
        "12:3 on the in-breath, the right foot doesn't reach the floor; "
        'bend the joints above it less or more, or name "right-foot" in "free"'
    ]


def test_a_foot_misses_the_floor_though_the_hand_of_its_side_has_a_place(change_lesson) -> None:
    lifted = with_hand(stand("back-knees-bent", left_leg=Leg(hip=100, knee=90)), "belly")
    (told,) = found(figures.find_missed_contacts, draw(change_lesson, lifted))
    assert told.startswith("9:1 on both breaths, the left foot doesn't reach the floor; ")


def test_a_lesson_between_two_poses_hides_no_other(change_lesson) -> None:
    """Where the pose itself changes, everything moves; the next lesson is still looked at."""
    rolls = Figure(View.SIDE, stand("dead-bug"), stand("back-legs-long"), (), {})
    lifts = Figure(View.SIDE, stand("dead-bug"), stand("dead-bug", left_arm=Arm(lift=150)), (), {})
    course = change_lesson("hand-on-belly", figure=rolls, positions=PLACES)
    course = change_lesson("plain-count", course, figure=lifts, positions=PLACES)
    (finding,) = figures.find_limbs_unlike_moving(course)
    assert finding.place.path == course.by_id["plain-count"].path


def test_a_free_foot_misses_nothing(change_lesson) -> None:
    lifted = stand("back-knees-bent", right_leg=Leg(hip=100, knee=90))
    free = replace(lifted, contacts=lifted.contacts.without(frozenset({"right-foot"})))
    assert found(figures.find_missed_contacts, draw(change_lesson, free)) == []


def test_a_drill_that_moves_must_be_drawn_moving(change_lesson) -> None:
    course = draw(change_lesson, stand("dead-bug"), moving=(Limb.LEFT_ARM,))
    assert found(figures.find_breaths_alike, course) == [
        "9:1 the left arm moves in the drill, but both breaths are drawn alike; "
        'give the angles that change under "inhale" or "exhale"'
    ]
    both = draw(change_lesson, stand("dead-bug"), moving=(Limb.LEFT_ARM, Limb.RIGHT_LEG))
    (told,) = found(figures.find_breaths_alike, both)
    assert told.startswith("9:1 the left arm and right leg move in the drill, ")
    limbs = (Limb.LEFT_ARM, Limb.RIGHT_ARM, Limb.RIGHT_LEG)
    (told,) = found(
        figures.find_breaths_alike, draw(change_lesson, stand("dead-bug"), moving=limbs)
    )
    assert told.startswith("9:1 the left arm, right arm and right leg move in the drill, ")


def test_a_breath_alone_is_no_move(change_lesson) -> None:
    still = stand("dead-bug")
    full = replace(still, pose=replace(still.pose, shape=replace(still.pose.shape, belly=1)))
    course = draw(change_lesson, full, still, moving=(Limb.LEFT_ARM,))
    assert len(found(figures.find_breaths_alike, course)) == 1
    assert found(figures.find_breaths_alike, draw(change_lesson, full, still)) == []


@pytest.mark.parametrize(
    "exhale",
    [
        stand("dead-bug", left_arm=Arm(lift=150)),
        with_hand(stand("dead-bug"), "belly"),
        stand("back-legs-long"),
    ],
)
def test_another_angle_another_place_or_another_pose_is_a_move(change_lesson, exhale) -> None:
    course = draw(change_lesson, stand("dead-bug"), exhale, moving=(Limb.LEFT_ARM,))
    assert found(figures.find_breaths_alike, course) == []


def test_a_position_alone_draws_no_moves_and_need_not(change_lesson) -> None:
    course = draw(
        change_lesson, stand("dead-bug"), moving=(Limb.LEFT_ARM,), positions={"position": (6, 1)}
    )
    assert found(figures.find_breaths_alike, course) == []


def test_a_limb_that_the_drill_keeps_still_must_stay(change_lesson) -> None:
    reached = stand("dead-bug", left_arm=Arm(lift=150))
    course = draw(change_lesson, stand("dead-bug"), reached, moving=(Limb.RIGHT_ARM,))
    assert found(figures.find_limbs_unlike_moving, course) == [
        "9:1 the left arm moves in the figure, but not in the drill; keep still there what the "
        'drill keeps still, or add "left-arm" to "moving"'
    ]


def test_a_hand_that_rides_on_the_breath_moves_by_nobodys_will(change_lesson) -> None:
    base = with_hand(stand("back-knees-bent"), "belly")
    tucked = replace(base, pose=replace(base.pose, spine=Spine(tuck=20, nod=8)))
    full = replace(base, pose=replace(base.pose, shape=replace(base.pose.shape, belly=1)))
    assert found(figures.find_limbs_unlike_moving, draw(change_lesson, full, tucked)) == []


def test_several_limbs_move_in_the_plural(change_lesson) -> None:
    reached = stand("dead-bug", left_arm=Arm(lift=150), right_leg=Leg(hip=40, knee=30))
    (told,) = found(
        figures.find_limbs_unlike_moving, draw(change_lesson, stand("dead-bug"), reached)
    )
    assert "the left arm and right leg move in the figure" in told
    assert 'add "left-arm" and "right-leg" to "moving"' in told


@pytest.mark.parametrize(
    ("exhale", "moving"),
    [
        (stand("dead-bug", left_arm=Arm(lift=150)), (Limb.LEFT_ARM,)),
        (stand("dead-bug", left_arm=Arm(lift=92.5)), ()),
        (stand("dead-bug", left_arm=Arm(lift=150)), (Limb.TRUNK,)),
        (stand("back-legs-long"), ()),
    ],
    ids=["named", "hardly moved", "carried by the trunk", "another position"],
)
def test_moves_that_the_drill_accounts_for_are_no_fault(change_lesson, exhale, moving) -> None:
    course = draw(change_lesson, stand("dead-bug"), exhale, moving=moving)
    assert found(figures.find_limbs_unlike_moving, course) == []


def test_the_starter_course_breaks_no_figure_rule() -> None:
    course = read_course(Path(__file__).parents[2]).course
    assert course is not None
    assert all(lesson.figure for lesson in course.lessons)
    findings = [
        str(finding)
        for check in CHECKS
        if any(rule.id.startswith("F") for rule in check.rules)
        for finding in check.find(course)
        if finding.rule.id not in course.by_id[Path(finding.place.path).stem].allowed
    ]
    assert findings == []
