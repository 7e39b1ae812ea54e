"""A header's figure: its base pose, what each breath changes, and what can't be drawn."""

from collections.abc import Callable, Iterable

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure, Sole, View
from builder.course.pose import Shape
from builder.findings import Finding
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE, WriteCourse

PATH = "content/lessons/breath/hand-on-belly.md"
LESSON = (SMALL_COURSE / PATH).read_text(encoding="utf-8")
COURSE = "content/course.yml"
LINE = 15
"""Where the figure stands in the header."""

Read = Callable[..., tuple[Figure | None, tuple[Finding, ...]]]


@pytest.fixture
def read(write_course: WriteCourse) -> Read:
    """Read a lesson with a figure; where it gives none, its position may have one."""

    def read_figure(
        figure: str = "", pose: str = "", props: str = "{mat: 1}"
    ) -> tuple[Figure | None, tuple[Finding, ...]]:
        key = f"figure: {figure}\nreviewed:" if figure else "reviewed:"
        text = LESSON.replace("reviewed:", key, 1).replace("{mat: 1}", props, 1)
        course = (SMALL_COURSE / COURSE).read_text(encoding="utf-8")
        course = course.replace(
            "floor: true}", f"floor: true, pose: {pose}}}" if pose else "floor: true}"
        )
        reading = read_course(write_course({PATH: text, COURSE: course}))
        lesson = reading.course.by_id.get("hand-on-belly") if reading.course else None
        return (lesson.figure if lesson else None), reading.findings

    return read_figure


def one(read: Read, figure: str, **others: str) -> Figure:
    made, findings = read(figure, **others)
    assert [str(finding) for finding in findings] == []
    assert made is not None
    return made


def tell(findings: Iterable[Finding]) -> list[tuple[str, str]]:
    return [
        (f"{finding.place.line}:{finding.rule.name}", f"{finding.fact}; {finding.cure}")
        for finding in findings
    ]


def test_a_figure_starts_from_its_base_pose(read: Read) -> None:
    figure = one(read, "{pose: dead-bug}")
    base = BASE_POSES["dead-bug"]
    assert figure.inhale == figure.exhale
    assert (figure.exhale.base, figure.exhale.pose) == ("dead-bug", base.pose)
    assert figure.view is View.SIDE
    assert figure.breath == ()


def test_without_a_figure_the_position_gives_the_pose(read: Read) -> None:
    figure, findings = read(pose="back-knees-bent")
    assert findings == ()
    assert figure is not None
    assert figure.exhale.base == "back-knees-bent"


def test_a_figures_own_pose_goes_before_the_positions(read: Read) -> None:
    assert one(read, "{pose: dead-bug}", pose="back-knees-bent").inhale.base == "dead-bug"


def test_without_any_pose_there_is_no_figure(read: Read) -> None:
    assert read() == (None, ())
    assert read("{breath: [belly]}") == (None, ())


def test_one_sides_own_angle_goes_before_that_of_both(read: Read) -> None:
    figure = one(read, "{pose: dead-bug, start: {left_leg: {knee: 40}, legs: {knee: 60, hip: 70}}}")
    pose = figure.exhale.pose
    assert (pose.left_leg.knee, pose.right_leg.knee) == (40, 60)
    assert (pose.left_leg.hip, pose.right_leg.hip) == (70, 70)


def test_a_breaths_own_angle_goes_before_that_of_the_start(read: Read) -> None:
    figure = one(
        read,
        "{pose: dead-bug, start: {left_arm: {lift: 30}, spine: {nod: 3}}, "
        "inhale: {arms: {lift: 120}}}",
    )
    assert figure.inhale.pose.left_arm.lift == 120
    assert figure.exhale.pose.left_arm.lift == 30
    assert figure.exhale.pose.right_arm == BASE_POSES["dead-bug"].pose.right_arm
    assert figure.inhale.pose.spine.nod == figure.exhale.pose.spine.nod == 3


def test_each_breath_may_start_from_another_base_pose(read: Read) -> None:
    figure = one(read, "{pose: sitting, exhale: {pose: standing}}")
    assert (figure.inhale.base, figure.exhale.base) == ("sitting", "standing")
    assert figure.inhale.contacts.on_seat
    assert not figure.exhale.contacts.on_seat
    assert figure.exhale.pose == BASE_POSES["standing"].pose


def test_the_breath_fills_the_trunk_on_the_in_breath_alone(read: Read) -> None:
    figure = one(read, "{pose: back-knees-bent, breath: [belly, sides]}")
    assert figure.breath == (BreathPlace.BELLY, BreathPlace.SIDES)
    assert figure.inhale.pose.shape == Shape(belly=1, sides=1)
    assert figure.exhale.pose.shape == Shape()


def test_hands_lie_where_the_figure_says_unless_a_breath_says_otherwise(read: Read) -> None:
    figure = one(
        read,
        "{pose: back-knees-bent, hands: {left: belly, right: chest}, "
        "exhale: {hands: {left: ribs}}}",
    )
    assert figure.inhale.contacts.hands == {"left": "belly", "right": "chest"}
    assert figure.exhale.contacts.hands == {"left": "ribs", "right": "chest"}


def test_free_drops_a_contact_on_that_breath_alone(read: Read) -> None:
    figure = one(
        read,
        "{pose: back-knees-bent, hands: {left: belly}, exhale: {free: [left-hand, right-foot]}}",
    )
    assert figure.inhale.contacts.hands == {"left": "belly"}
    assert figure.exhale.contacts.hands == {}
    assert figure.inhale.contacts.soles == {"left": Sole.FLAT, "right": Sole.FLAT}
    assert figure.exhale.contacts.soles == {"left": Sole.FLAT}


@pytest.mark.parametrize(
    ("view", "facing"), [("side", 0), ("above", 0), ("front", -90), ("back", 90)]
)
def test_a_view_turns_the_body_to_the_viewer_or_away(read: Read, view: str, facing: float) -> None:
    figure = one(read, f"{{pose: standing, view: {view}}}")
    assert figure.view is View(view)
    assert {figure.inhale.pose.lie.facing, figure.exhale.pose.lie.facing} == {facing}


def test_a_lessons_own_turn_comes_on_top_of_the_view(read: Read) -> None:
    figure = one(read, "{pose: standing, view: front, start: {lie: {facing: 20}}}")
    assert figure.inhale.pose.lie.facing == -70


def test_props_lie_as_they_mostly_do_unless_the_figure_says(read: Read) -> None:
    props = "{mat: 1, ball: 1}"
    mostly = one(read, "{pose: dead-bug}", props=props)
    assert mostly.props == {"ball": "on-belly", "mat": "under"}
    told = one(read, "{pose: dead-bug, props: {ball: pinned, mat: unseen}}", props=props)
    assert told.props == {"ball": "pinned"}


def test_a_base_pose_may_lay_a_prop_in_its_own_way(read: Read) -> None:
    figure = one(read, "{pose: all-fours}", props="{towel: 1}")
    assert figure.props == {"towel": "under-knees"}


@pytest.mark.parametrize(
    ("figure", "rule", "fact", "cure"),
    [
        (
            "{pose: dead-bugs}",
            "name-unknown",
            '"dead-bugs" under "pose" is unknown',
            'write "dead-bug" if that is meant',
        ),
        (
            "{pose: dead-bug, exhale: {pose: standin}}",
            "name-unknown",
            '"standin" under "pose" is unknown',
            'write "standing" if that is meant',
        ),
        (
            "{pose: dead-bug, hands: {left: bely}}",
            "name-unknown",
            '"bely" under "left" is unknown',
            'write "belly" if that is meant',
        ),
        (
            "{pose: dead-bug, inhale: {hands: {right: chst}}}",
            "name-unknown",
            '"chst" under "right" is unknown',
            'write "chest" if that is meant',
        ),
        (
            "{pose: dead-bug, props: {bal: pinned}}",
            "name-unknown",
            '"bal" under "props" is unknown',
            "use one of mat",
        ),
        (
            "{pose: dead-bug, props: {mat: undr}}",
            "name-unknown",
            '"undr" under "mat" is unknown',
            'write "under" if that is meant',
        ),
        (
            "{pose: dead-bug, start: {left_leg: {kne: 40}}}",
            "key-unknown",
            '"kne" is no key here',
            'write "knee" if that is meant',
        ),
        (
            "{pose: dead-bug, start: {leg: {knee: 40}}}",
            "key-unknown",
            '"leg" is no key here',
            'write "legs" if that is meant',
        ),
        (
            "{pose: dead-bug, start: {legs: {knee: 200}}}",
            "value-out-of-range",
            '"knee" is 200',
            "give at most 180",
        ),
        (
            "{pose: dead-bug, inhale: {lie: {lean: -181}}}",
            "value-out-of-range",
            '"lean" is -181',
            "give at least -180",
        ),
        (
            "{pose: dead-bug, start: {legs: {knee: bent}}}",
            "wrong-type",
            '"knee" is "bent", not a number',
            "give a number without a unit, such as 2.5",
        ),
        (
            "{pose: dead-bug, exhale: {free: [left-knee]}}",
            "name-unknown",
            '"free" number 1 is "left-knee"',
            'write "left-hand" if that is meant',
        ),
        (
            "{pose: dead-bug, view: sideways}",
            "name-unknown",
            '"view" is "sideways"',
            'write "side" if that is meant',
        ),
    ],
)
def test_what_cannot_be_drawn_is_told_with_its_line_and_a_cure(
    read: Read, figure: str, rule: str, fact: str, cure: str
) -> None:
    made, findings = read(figure)
    assert made is None
    (place, told), *rest = tell(findings)
    assert rest == []
    assert place == f"{LINE}:{rule}"
    assert told == f"{fact}; {cure}"


def test_every_unknown_name_of_a_figure_is_told_at_once(read: Read) -> None:
    _, findings = read(
        "{pose: dead-bug, hands: {left: bely}, props: {mat: over}, inhale: {pose: sit}}"
    )
    assert {finding.fact.split('"')[1] for finding in findings} == {"bely", "over", "sit"}


def test_a_position_may_only_name_a_pose_that_there_is(read: Read) -> None:
    _, findings = read(pose="back-knees-bend")
    assert tell(findings) == [
        (
            "12:name-unknown",
            '"back-knees-bend" under "pose" is unknown; write "back-knees-bent" if that is meant',
        )
    ]


def test_what_presses_is_kept_with_its_breath(read: Read) -> None:
    figure = one(read, "{pose: dead-bug, exhale: {press: [left-hand, right-knee]}}")
    assert figure.inhale.press == ()
    assert figure.exhale.press == ("left-hand", "right-knee")


def test_a_foot_does_not_press(read: Read) -> None:
    made, findings = read("{pose: dead-bug, exhale: {press: [left-foot]}}")
    assert made is None
    ((_, text),) = tell(findings)
    assert "left-foot" in text
    assert '"left-hand"' in text or "left-hand" in text


def test_a_walk_may_leave_its_arrows_out(read: Read) -> None:
    assert one(read, "{pose: standing}").has_move_arrows
    assert not one(read, "{pose: standing, move_arrows: false}").has_move_arrows
