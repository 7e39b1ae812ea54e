"""Base poses: the positions of the trade, from which a lesson's figure starts.

The angles are our own, chosen by eye; common practice says which joints bend.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.course.figure import Contacts, Sole
from builder.course.pose import Arm, Leg, Lie, Pose, Spine

_ON_BACK = Lie(lean=-90)
_FACE_DOWN = Lie(lean=90)
_FLAT = {"left": Sole.FLAT, "right": Sole.FLAT}
_TOES = {"left": Sole.TOES, "right": Sole.TOES}
_LEVEL = {"left": Sole.LEVEL, "right": Sole.LEVEL}
_FEET = ("left-foot", "right-foot")
_KNEES = ("left-knee", "right-knee")
_HANDS = ("left-hand", "right-hand")
_PLANTED = {"left": "planted", "right": "planted"}
_HEAD_ON_HANDS = {"right": "under-head", "left": "under-head"}
_FOREHEAD_ON_HANDS = {"right": "under-forehead", "left": "under-forehead"}


@dataclass(frozen=True, slots=True)
class BasePose:
    """A position: in words, as angles, and what it rests on."""

    words: str
    pose: Pose
    contacts: Contacts = field(default_factory=Contacts)
    props: Mapping[str, str] = field(default_factory=dict)
    """How props mostly lie in this position, where not as they do in all others."""


def _alike(lie: Lie, spine: Spine, arm: Arm, leg: Leg) -> Pose:
    return Pose(lie=lie, spine=spine, left_arm=arm, right_arm=arm, left_leg=leg, right_leg=leg)


_BY_SIDES = Arm(lift=-6, out=16, elbow=6, roll=70)
_HANGING = Arm(lift=4, out=7, elbow=12)
_PROPPED = Arm(lift=104, out=-2, roll=80, wrist=-68)
_NECK_ON_PILLOW = Spine(nod=8)

BASE_POSES: Mapping[str, BasePose] = {
    "back-knees-bent": BasePose(
        "lying on the back, knees bent, feet flat",
        _alike(_ON_BACK, _NECK_ON_PILLOW, _BY_SIDES, Leg(hip=47, out=3, knee=96)),
        Contacts(soles=_FLAT),
    ),
    "back-legs-long": BasePose(
        "lying on the back, legs long",
        _alike(_ON_BACK, _NECK_ON_PILLOW, _BY_SIDES, Leg(hip=2, out=5, ankle=-15)),
    ),
    "dead-bug": BasePose(
        "lying on the back, knees over the hips, shins level",
        _alike(_ON_BACK, _NECK_ON_PILLOW, Arm(lift=92), Leg(hip=90, out=3, knee=90)),
    ),
    "face-down": BasePose(
        "lying face down, forehead on the stacked hands",
        _alike(
            _FACE_DOWN,
            Spine(curl=-6, nod=-4),
            Arm(lift=150, out=35, elbow=110),
            Leg(out=4, ankle=-45),
        ),
        Contacts(hands=_HEAD_ON_HANDS),
    ),
    "side-lying": BasePose(
        "lying on the side, knees bent",
        Pose(
            lie=Lie(lean=-90, spin=-90),
            left_arm=Arm(lift=35, elbow=75, roll=30),
            right_arm=Arm(lift=82, elbow=25),
            left_leg=Leg(hip=55, knee=80),
            right_leg=Leg(hip=50, knee=80),
        ),
    ),
    "all-fours": BasePose(
        "on hands and knees",
        _alike(_FACE_DOWN, Spine(nod=-22), _PROPPED, Leg(hip=90, out=3, knee=90, ankle=-42)),
        Contacts(rests_on=_KNEES, tilts_on=_HANDS, soles=_TOES, hands=_PLANTED),
        {"pillow": "under-knees", "towel": "under-knees"},
    ),
    "rest-pose": BasePose(
        "kneeling, seat back towards the heels, folded forward over a pillow",
        _alike(
            Lie(lean=80),
            Spine(curl=16, nod=-20, tuck=2),
            Arm(lift=150, out=35, elbow=110),
            Leg(hip=124, out=16, knee=136, ankle=-45),
        ),
        Contacts(rests_on=_KNEES, soles=_TOES, hands=_FOREHEAD_ON_HANDS),
        {"pillow": "seat-and-chest"},
    ),
    "sitting": BasePose(
        "sitting on a chair, feet flat",
        _alike(Lie(), Spine(), Arm(lift=22, out=6, elbow=55), Leg(hip=76, out=4, knee=84)),
        Contacts(rests_on=("seat",), on_seat=True, soles=_FLAT),
    ),
    "kneeling": BasePose(
        "kneeling upright",
        _alike(Lie(), Spine(), _HANGING, Leg(out=4, knee=90, ankle=-42)),
        Contacts(rests_on=_KNEES, soles=_TOES),
        {"pillow": "under-knees", "chair": "ahead"},
    ),
    "half-kneeling": BasePose(
        "half-kneeling, left foot in front",
        Pose(
            left_arm=_HANGING,
            right_arm=_HANGING,
            left_leg=Leg(hip=89, out=4, knee=90),
            right_leg=Leg(out=2, knee=90, ankle=-42),
        ),
        Contacts(rests_on=("right-knee",), soles={"left": Sole.FLAT, "right": Sole.TOES}),
        {"pillow": "under-knees", "chair": "ahead"},
    ),
    "standing": BasePose(
        "standing",
        _alike(Lie(), Spine(), _HANGING, Leg(out=3)),
        Contacts(rests_on=_FEET, soles=_LEVEL),
        {"chair": "behind"},
    ),
    "squat": BasePose(
        "standing, knees and hips bent",
        _alike(
            Lie(lean=46),
            Spine(curl=-6, nod=-18),
            Arm(lift=110, elbow=10),
            Leg(hip=114, out=8, knee=87),
        ),
        Contacts(rests_on=_FEET, soles=_LEVEL),
        {"chair": "behind"},
    ),
    "hinge": BasePose(
        "standing, bent forward at the hips with a long back",
        _alike(Lie(lean=55), Spine(nod=-14), Arm(lift=50, elbow=8), Leg(hip=68, out=4, knee=24)),
        Contacts(rests_on=_FEET, soles=_LEVEL),
        {"chair": "behind"},
    ),
}
