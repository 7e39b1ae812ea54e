"""Plain figures: a position by itself, as the body rests in it, and the breath."""

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, View
from builder.course.pose import Shape
from builder.sums.plain_figure import make_plain_figure
from builder.sums.rest import settle

PLACES = tuple(BreathPlace)


@pytest.mark.parametrize("pose", BASE_POSES)
def test_nothing_moves_but_the_breath(pose: str) -> None:
    figure = make_plain_figure(pose, (), (BreathPlace.BELLY,))
    before, after = figure.inhale, figure.exhale
    assert (before.base, before.contacts) == (after.base, after.contacts) == (pose, after.contacts)
    assert (before.pose.shape, after.pose.shape) == (Shape(belly=1), Shape())
    assert before.pose.lie == after.pose.lie == BASE_POSES[pose].pose.lie
    assert before.pose.spine == after.pose.spine
    assert figure.breath == (BreathPlace.BELLY,)


@pytest.mark.parametrize("pose", sorted({*BASE_POSES} - {"sitting"}))
def test_who_does_not_sit_keeps_the_hands_where_they_are(pose: str) -> None:
    assert make_plain_figure(pose, (), ()).exhale.contacts == BASE_POSES[pose].contacts


def test_who_sits_is_on_a_chair_with_the_hands_on_the_thighs() -> None:
    figure = make_plain_figure("sitting", ("chair", "no-such-prop"), ())
    assert list(figure.props) == ["chair"]
    assert figure.exhale.contacts.on_seat
    assert figure.exhale.contacts.hands == {"left": "thigh", "right": "thigh"}
    _, body = settle(figure.exhale.pose, figure.exhale.contacts)
    for side in ("left", "right"):
        palm, knee, hip = (body.at(f"{side}-{part}") for part in ("palm", "knee", "hip"))
        assert hip[0] < palm[0] < knee[0] + 0.05  # between hip and knee, and not in the air
        assert abs(palm[2] - knee[2]) < 0.08


@pytest.mark.parametrize(
    ("breath", "view"),
    [
        ((), View.SIDE),
        ((BreathPlace.BELLY, BreathPlace.SIDES), View.SIDE),
        ((BreathPlace.SIDES,), View.CORNER),
        ((BreathPlace.LEFT,), View.CORNER),
    ],
)
def test_a_breath_to_the_side_is_seen_from_the_corner_where_bent_legs_show(
    breath: tuple[BreathPlace, ...], view: View
) -> None:
    figure = make_plain_figure("sitting", ("chair",), breath)
    assert figure.view is view
    for stance in (figure.inhale, figure.exhale):  # half towards the viewer, who is at -90
        assert (-90 < stance.pose.lie.facing < 0) == (view is View.CORNER)


@pytest.mark.parametrize(
    ("pose", "props"),
    [
        ("sitting", {"chair": "seat", "ball": "on-belly"}),
        ("standing", {"chair": "behind", "mat": "under"}),
        ("all-fours", {"pillow": "under-knees", "towel": "under-knees"}),
        ("rest-pose", {"pillow": "seat-and-chest", "towel": "under-knees"}),
    ],
)
def test_props_lie_as_they_mostly_do_in_a_position(pose: str, props: dict[str, str]) -> None:
    assert make_plain_figure(pose, props, ()).props == props
