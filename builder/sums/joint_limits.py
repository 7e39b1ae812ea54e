"""How far joints go, in degrees: nobody is drawn in a pose beyond the published range.

Where no source is named, the Schedule for Rating Disabilities, 38 CFR 4.71, Plates I, II and V
(US Department of Veterans Affairs); what is ours says so.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.course.pose import Pose
from builder.sums.citation import Citation, ours

# The year is the rule's as it was read; it is revised now and then.
FEDERAL_RULE = Citation(
    "38-cfr-4.71",
    "US Department of Veterans Affairs",
    2024,
    "how far joints go",
    "Schedule for Rating Disabilities, 38 CFR 4.71, Plates I, II and V",
)
JOINT_MOTION = Citation(
    "aaos-1965",
    "American Academy of Orthopaedic Surgeons",
    1965,
    "extension of the shoulder",
    "Joint Motion: Method of Measuring and Recording",
)
OWN_LIMITS = ours("own-joint-limits", "limits of pelvic tuck and of an arm across the body")


@dataclass(frozen=True, slots=True)
class Range:
    """The angles that a joint can have."""

    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Excess:
    """A joint that is bent too far."""

    part: str
    joint: str
    angle: float
    range: Range


_ARM = {
    "lift": Range(-60, 180),  # extension of 60: AAOS, Joint Motion, 1965
    "out": Range(-45, 180),  # across the body: ours
    "turn": Range(-90, 90),
    "elbow": Range(0, 145),
    "roll": Range(-85, 80),
    "wrist": Range(-70, 80),
}
_LEG = {
    "hip": Range(-30, 125),
    "out": Range(-25, 45),
    "turn": Range(-40, 60),
    "knee": Range(0, 140),
    "ankle": Range(-45, 20),
}
LIMITS: Mapping[str, Mapping[str, Range]] = {
    "spine": {
        "tuck": Range(-20, 20),  # ours
        "curl": Range(-30, 90),
        "turn": Range(-30, 30),
        "nod": Range(-45, 45),
        "look": Range(-80, 80),
    },
    "left_arm": _ARM,
    "right_arm": _ARM,
    "left_leg": _LEG,
    "right_leg": _LEG,
}
"""By part of a pose and joint."""
SOLVED = frozenset({"elbow", "wrist", "hip", "knee", "ankle"})
"""Joints that contacts bend; the others stay as they were written."""
_ROUNDING = 1e-6


def find_excesses(pose: Pose) -> Iterator[Excess]:
    """Yield each joint of a pose that is out of range."""
    for part, limits in LIMITS.items():
        for joint, limit in limits.items():
            angle = getattr(getattr(pose, part), joint)
            if not limit.least - _ROUNDING <= angle <= limit.most + _ROUNDING:
                yield Excess(part, joint, angle, limit)
