"""Forward kinematics: bones keep their lengths, and sides mirror each other.

Heights and lengths: Drillis and Contini 1966, as in Winter, *Biomechanics and Motor Control of
Human Movement*, figure 4.1.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Contacts, Sole
from builder.course.pose import Arm, Leg, Lie, Pose, Shape, Spine, blend
from builder.sums.body import STATIONS
from builder.sums.rest import settle
from builder.sums.skeleton import Skeleton, build_skeleton, lowest, reach, support
from builder.sums.space import Turn, Vector, apply, cross, distance, dot, length, turn_z
from tests.random_poses import poses, shapes

BONES = (
    ("shoulder", "elbow", 0.186),
    ("elbow", "wrist", 0.146),
    ("hip", "knee", 0.245),
    ("knee", "ankle", 0.246),
)
HALF_A_MILLIMETRE = 0.5 / 40
"""Where a body's height is 40 mm on a card, as a part of the height."""
ON_BOTH_FEET = Contacts(
    rests_on=("left-foot", "right-foot"), soles={"left": Sole.LEVEL, "right": Sole.LEVEL}
)
SIDES = ("left", "right")


def measure_bones(body: Skeleton) -> list[float]:
    return [distance(body.at(f"{s}-{a}"), body.at(f"{s}-{b}")) for s in SIDES for a, b, _ in BONES]


def measure_all(body: Skeleton) -> list[float]:
    """Return every length that no joint may change, hands, feet, neck and head among them."""
    ends = [("wrist", "palm"), ("wrist", "fingers"), ("ankle", "heel"), ("heel", "toe")]
    whole = [("neck", "chin"), ("left-hip", "right-hip"), ("left-shoulder", "right-shoulder")]
    return [
        *measure_bones(body),
        *(distance(body.at(f"{s}-{a}"), body.at(f"{s}-{b}")) for s in SIDES for a, b in ends),
        *(distance(body.at(a), body.at(b)) for a, b in whole),
        distance(body.at("chin"), body.head.middle),
    ]


def is_orthonormal(turn: Turn) -> bool:
    x, y, z = turn
    return (
        [length(axis) for axis in turn] == pytest.approx([1, 1, 1])
        and [dot(x, y), dot(y, z)] == pytest.approx([0, 0], abs=1e-9)
        and cross(x, y) == pytest.approx(z, abs=1e-9)
    )


def test_a_standing_body_has_its_joints_at_the_published_heights() -> None:
    _, body = settle(Pose(), ON_BOTH_FEET)
    for side in SIDES:
        assert body.at(f"{side}-ankle")[2] == pytest.approx(0.039)
        assert body.at(f"{side}-knee")[2] == pytest.approx(0.285)
        assert body.at(f"{side}-hip")[2] == pytest.approx(0.530)
        assert body.at(f"{side}-shoulder")[2] == pytest.approx(0.818, abs=HALF_A_MILLIMETRE)
    assert body.trunk[-1].middle[2] == pytest.approx(0.818)
    assert body.at("chin")[2] == pytest.approx(0.870)
    assert body.head.middle[2] + reach(body.head, (0.0, 0.0, 1.0)) == pytest.approx(1.000)


def test_a_hanging_arm_and_hand_are_as_long_as_published() -> None:
    body = build_skeleton(Pose())
    for side in SIDES:
        tip = body.points[f"{side}-fingers"]
        bottom = tip.middle[2] - tip.radius
        assert body.at(f"{side}-shoulder")[2] - bottom == pytest.approx(0.440)


def test_shoulders_are_as_broad_as_published_their_joints_under_the_top_of_the_trunk() -> None:
    body = build_skeleton(Pose())
    left, right = (body.points[f"{side}-shoulder"] for side in SIDES)
    ends = left.middle[1] + left.radius, right.middle[1] - right.radius
    assert ends[0] - ends[1] == pytest.approx(0.259, abs=HALF_A_MILLIMETRE)
    assert 0 < body.trunk[-1].middle[2] - left.middle[2] < 0.02


def test_who_stands_has_the_head_over_the_shoulders() -> None:
    # The plumb line of good posture, common practice: ear over shoulder, here within 2.5 cm.
    body = build_skeleton(Pose())
    assert abs(body.head.middle[0] - body.at("left-shoulder")[0]) * 175 < 2.5


def test_a_hanging_hand_is_straight_its_thumb_ahead_between_wrist_and_tips() -> None:
    body = build_skeleton(Pose())
    for side in SIDES:
        wrist, palm, tips, thumb = (
            body.at(f"{side}-{part}") for part in ("wrist", "palm", "fingers", "thumb")
        )
        assert palm[:2] == tips[:2] == wrist[:2]
        assert wrist[0] < thumb[0] < wrist[0] + 0.04
        assert thumb[1] == wrist[1]
        assert tips[2] < thumb[2] < palm[2] < wrist[2]


def test_limbs_taper_towards_their_ends() -> None:
    points = build_skeleton(Pose()).points
    for side in SIDES:
        for limb in (
            ("hip", "knee", "ankle", "heel", "toe"),
            ("shoulder", "elbow", "palm", "wrist", "thumb"),
            ("shoulder", "elbow", "palm", "wrist", "fingers"),
        ):
            radii = [points[f"{side}-{part}"].radius for part in limb]
            assert radii == sorted(radii, reverse=True)
            assert radii[-1] > 0
    assert points["neck"].radius == points["chin"].radius < points["left-shoulder"].radius


def test_a_foot_is_as_long_as_published() -> None:
    body = build_skeleton(Pose())
    toe, heel = body.points["left-toe"], body.points["left-heel"]
    ends = toe.middle[0] + toe.radius, heel.middle[0] - heel.radius
    assert ends[0] - ends[1] == pytest.approx(0.152)


@given(poses)
def test_no_pose_changes_the_length_of_a_segment(pose: Pose) -> None:
    body = build_skeleton(pose)
    assert measure_bones(body) == pytest.approx([long for *_, long in BONES] * 2)
    assert measure_all(body) == pytest.approx(measure_all(build_skeleton(Pose())))


@given(poses)
def test_axes_stay_upright_on_each_other(pose: Pose) -> None:
    body = build_skeleton(pose)
    turns = [body.pelvis, body.chest, body.head.axes, *(piece.axes for piece in body.trunk)]
    assert all(is_orthonormal(turn) for turn in turns)


def mirror(point: Vector, facing: float) -> Vector:
    """Return a point's mirror image across the upright plane in which a body faces."""
    x, y, z = apply(turn_z(-facing), point)
    return apply(turn_z(facing), (x, -y, z))


def change_side(name: str) -> str:
    side, dash, part = name.partition("-")
    return f"{ {'left': 'right', 'right': 'left'}[side] }{dash}{part}" if dash else name


@given(poses)
def test_a_mirrored_pose_gives_a_mirrored_body(pose: Pose) -> None:
    body, other = build_skeleton(pose), build_skeleton(pose.mirrored())
    facing = pose.lie.facing
    for name in body.points:
        image = mirror(body.at(name), facing)
        assert other.at(change_side(name)) == pytest.approx(image, abs=1e-9)
    for piece, twin in zip((*body.trunk, body.head), (*other.trunk, other.head), strict=True):
        assert twin.middle == pytest.approx(mirror(piece.middle, facing), abs=1e-9)
        assert twin.radii == piece.radii


@pytest.mark.parametrize("name", sorted(BASE_POSES))
def test_a_mirrored_base_pose_settles_into_a_mirrored_body(name: str) -> None:
    base = BASE_POSES[name]
    contacts = base.contacts
    if set(contacts.hands.values()) <= {"under-head", "under-forehead"} and contacts.hands:
        pytest.skip("one hand lies over the other")
    turned = Contacts(
        tuple(map(change_side, contacts.rests_on)),
        tuple(map(change_side, contacts.tilts_on)),
        contacts.on_seat,
        {change_side(f"{side}-").strip("-"): sole for side, sole in contacts.soles.items()},
        {change_side(f"{side}-").strip("-"): place for side, place in contacts.hands.items()},
    )
    _, body = settle(base.pose, contacts)
    _, other = settle(base.pose.mirrored(), turned)
    for point in body.points:
        x, y, z = body.at(point)
        assert other.at(change_side(point)) == pytest.approx((x, -y, z), abs=1e-6)


@given(poses, st.tuples(st.floats(-3, 3), st.floats(-3, 3), st.floats(-3, 3)))
def test_a_moved_body_moves_as_a_whole(pose: Pose, way: Vector) -> None:
    body = build_skeleton(pose)
    moved = body.moved(way)
    before = [body.head, *body.trunk, *body.points.values()]
    after = [moved.head, *moved.trunk, *moved.points.values()]
    for first, second in zip(before, after, strict=True):
        gap = [b - a for a, b in zip(first.middle, second.middle, strict=True)]
        assert gap == pytest.approx(way, abs=1e-9)
    assert (moved.pelvis, moved.chest, moved.facing) == (body.pelvis, body.chest, body.facing)


STEPS = [step / 4 for step in range(5)]


@pytest.mark.parametrize("start", ["dead-bug", "back-knees-bent", "all-fours", "squat"])
@pytest.mark.parametrize("end", ["back-legs-long", "all-fours", "standing"])
def test_every_step_of_a_blend_settles_with_its_segments_whole(start: str, end: str) -> None:
    first, last = BASE_POSES[start], BASE_POSES[end]
    for step in STEPS:
        _, body = settle(blend(first.pose, last.pose, step), last.contacts)
        assert measure_bones(body) == pytest.approx([long for *_, long in BONES] * 2)


@pytest.mark.parametrize(
    ("pose", "point", "way"),
    [
        (Pose(left_arm=Arm(lift=90)), "left-palm", (1, 0, 0)),
        (Pose(left_arm=Arm(lift=180)), "left-palm", (0, 0, 1)),
        (Pose(left_arm=Arm(out=90)), "left-palm", (0, 1, 0)),
        (Pose(right_arm=Arm(out=90)), "right-palm", (0, -1, 0)),
        (Pose(left_leg=Leg(hip=90)), "left-ankle", (1, 0, 0)),
        (Pose(left_leg=Leg(hip=-30)), "left-ankle", (-0.5, 0, -math.sqrt(0.75))),
        (Pose(right_leg=Leg(out=30)), "right-ankle", (0, -0.5, -math.sqrt(0.75))),
    ],
)
def test_a_straight_limb_points_where_its_joint_sends_it(
    pose: Pose, point: str, way: Vector
) -> None:
    body = build_skeleton(pose)
    root = body.at(point.replace("palm", "shoulder").replace("ankle", "hip"))
    gap = [b - a for a, b in zip(root, body.at(point), strict=True)]
    size = math.hypot(*gap)
    assert [part / size for part in gap] == pytest.approx(way, abs=1e-9)


def test_a_bent_knee_brings_the_heel_back_and_a_bent_elbow_the_hand_ahead() -> None:
    body = build_skeleton(Pose(left_leg=Leg(knee=90), left_arm=Arm(elbow=90)))
    assert body.at("left-ankle") == pytest.approx((-0.246, 0.052, -0.245))
    assert body.at("left-wrist")[0] - body.at("left-elbow")[0] == pytest.approx(0.146)


@pytest.mark.parametrize(
    ("lie", "head_lies", "face_looks"),
    [
        (Lie(), (0, 0, 1), (1, 0, 0)),
        (Lie(lean=90), (1, 0, 0), (0, 0, -1)),
        (Lie(lean=-90), (-1, 0, 0), (0, 0, 1)),
        (Lie(facing=90), (0, 0, 1), (0, 1, 0)),
        (Lie(lean=-90, spin=-90), (-1, 0, 0), (0, -1, 0)),
    ],
)
def test_a_body_lies_as_it_is_told(lie: Lie, head_lies: Vector, face_looks: Vector) -> None:
    body = build_skeleton(Pose(lie=lie))
    assert body.head.axes[2] == pytest.approx(head_lies, abs=1e-9)
    assert body.head.axes[0] == pytest.approx(face_looks, abs=1e-9)


def test_a_spine_curls_the_head_forward_and_arches_it_back() -> None:
    curled, straight, arched = (
        build_skeleton(Pose(spine=Spine(curl=curl))).head.middle for curl in (40, 0, -30)
    )
    assert curled[0] > straight[0] > arched[0]
    assert max(curled[2], arched[2]) < straight[2]


def test_a_tuck_brings_the_tail_forward_below_a_trunk_that_stays() -> None:
    tucked, straight = (build_skeleton(Pose(spine=Spine(tuck=tuck))) for tuck in (15, 0))
    assert tucked.trunk[0].middle[0] > straight.trunk[0].middle[0] + 0.01
    assert tucked.trunk[-1].axes == straight.trunk[-1].axes


def tilted(degrees: float) -> Vector:
    """Return the way up of what is tilted forward."""
    return math.sin(math.radians(degrees)), 0.0, math.cos(math.radians(degrees))


@pytest.mark.parametrize("curl", [40, -30])
def test_a_curl_grows_from_a_still_pelvis_to_the_whole_of_it_at_the_shoulders(curl: float) -> None:
    body = build_skeleton(Pose(spine=Spine(curl=curl)))
    assert body.pelvis == build_skeleton(Pose()).pelvis
    assert body.chest[2] == pytest.approx(tilted(curl))
    shares = [math.degrees(math.atan2(p.axes[2][0], p.axes[2][2])) / curl for p in body.trunk]
    assert shares == sorted(shares)
    assert shares[4] == pytest.approx(0.5, abs=0.02)  # half of it in the low half of the trunk


def test_a_turn_grows_from_a_still_pelvis_to_the_whole_of_it_at_the_shoulders() -> None:
    body = build_skeleton(Pose(spine=Spine(turn=30)))
    assert body.pelvis == build_skeleton(Pose()).pelvis
    assert body.chest[0] == pytest.approx((math.sqrt(0.75), 0.5, 0))
    assert body.trunk[4].axes[0][1] == pytest.approx(math.sin(math.radians(15)), abs=0.01)


@pytest.mark.parametrize("tuck", [15, -15])
def test_a_tuck_tilts_the_pelvis_by_the_whole_of_it(tuck: float) -> None:
    assert build_skeleton(Pose(spine=Spine(tuck=tuck))).pelvis[2] == pytest.approx(tilted(-tuck))


def test_a_nod_and_a_look_take_the_head_all_the_way() -> None:
    assert build_skeleton(Pose(spine=Spine(nod=45))).head.axes[2] == pytest.approx(tilted(45))
    look = build_skeleton(Pose(spine=Spine(look=30))).head.axes
    assert look[0] == pytest.approx((math.sqrt(0.75), 0.5, 0))


@pytest.mark.parametrize(
    ("shape", "station", "front", "back"),
    [
        (Shape(belly=1), 3, STATIONS[3].belly, 0),
        (Shape(chest=1), 6, STATIONS[6].chest, 0),
        (Shape(back=1), 5, 0, STATIONS[5].back),
        (Shape(belly=0.5, back=1), 4, STATIONS[4].belly / 2, STATIONS[4].back),
    ],
)
def test_a_breath_moves_the_front_or_the_back_of_the_trunk_alone(
    shape: Shape, station: int, front: float, back: float
) -> None:
    full, empty = (build_skeleton(Pose(shape=each)).trunk[station] for each in (shape, Shape()))
    fronts, backs = (
        [piece.middle[0] + sign * piece.radii[0] for piece in (empty, full)] for sign in (1, -1)
    )
    assert fronts[1] - fronts[0] == pytest.approx(front)
    assert backs[0] - backs[1] == pytest.approx(back)
    assert full.radii[1] == empty.radii[1]


def test_a_breath_to_the_sides_widens_both() -> None:
    full, empty = (build_skeleton(Pose(shape=each)).trunk[5] for each in (Shape(sides=1), Shape()))
    assert full.radii[1] - empty.radii[1] == pytest.approx(STATIONS[5].sides)
    assert full.middle == empty.middle


@pytest.mark.parametrize(("shape", "wide"), [(Shape(left=1), "left"), (Shape(right=1), "right")])
def test_a_breath_to_one_side_widens_only_that_side(shape: Shape, wide: str) -> None:
    full, empty = (build_skeleton(Pose(shape=each)).trunk[5] for each in (shape, Shape()))
    for side, sign in (("left", 1), ("right", -1)):
        ends = [sign * piece.middle[1] + piece.radii[1] for piece in (empty, full)]
        grown = STATIONS[5].sides if side == wide else 0.0
        assert ends[1] - ends[0] == pytest.approx(grown)


@given(shapes)
def test_a_breath_moves_no_joint(shape: Shape) -> None:
    full, empty = build_skeleton(Pose(shape=shape)), build_skeleton(Pose())
    for side in SIDES:
        for joint in ("hip", "knee", "ankle"):
            assert full.at(f"{side}-{joint}") == empty.at(f"{side}-{joint}")


@given(poses)
def test_no_point_of_an_ellipsoid_is_lower_than_its_lowest(pose: Pose) -> None:
    for piece in build_skeleton(pose).trunk:
        down = support(piece, (0.0, 0.0, -1.0))
        assert piece.middle[2] + down[2] == pytest.approx(lowest(piece))
        inside = sum(
            (dot(axis, down) / r) ** 2 for axis, r in zip(piece.axes, piece.radii, strict=True)
        )
        assert inside == pytest.approx(1)
