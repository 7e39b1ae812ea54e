"""Joint limits: the published angle is drawn, one degree more isn't.

Source: Schedule for Rating Disabilities, 38 CFR 4.71, Plates I and II (arm and leg), and
38 CFR 4.71a, Plate V (spine). Shoulder extension of 60: American Academy of Orthopaedic
Surgeons, *Joint Motion*, 1965, from memory.
"""

from dataclasses import replace

import pytest

from builder.course.pose import Pose
from builder.sums.joint_limits import LIMITS, find_excesses

PUBLISHED = (
    ("arm", "lift", 180),  # shoulder forward elevation
    ("arm", "lift", -60),  # shoulder extension
    ("arm", "out", 180),  # shoulder abduction
    ("arm", "turn", 90),  # shoulder external rotation
    ("arm", "turn", -90),  # shoulder internal rotation
    ("arm", "elbow", 145),
    ("arm", "elbow", 0),
    ("arm", "roll", 80),  # forearm pronation
    ("arm", "roll", -85),  # forearm supination
    ("arm", "wrist", 80),  # wrist palmar flexion
    ("arm", "wrist", -70),  # wrist dorsiflexion
    ("leg", "hip", 125),
    ("leg", "hip", -30),  # extension
    ("leg", "out", 45),  # hip abduction
    ("leg", "out", -25),  # hip adduction
    ("leg", "turn", 60),  # hip external rotation
    ("leg", "turn", -40),  # hip internal rotation
    ("leg", "knee", 140),
    ("leg", "knee", 0),
    ("leg", "ankle", 20),  # dorsiflexion
    ("leg", "ankle", -45),  # plantar flexion
    ("spine", "curl", 90),  # thoracolumbar forward flexion
    ("spine", "curl", -30),  # thoracolumbar extension
    ("spine", "turn", 30),  # thoracolumbar rotation
    ("spine", "turn", -30),
    ("spine", "nod", 45),  # cervical forward flexion
    ("spine", "nod", -45),  # cervical extension
    ("spine", "look", 80),  # cervical rotation
    ("spine", "look", -80),
)
CASES = [
    (part, joint, angle)
    for kind, joint, angle in PUBLISHED
    for part in ((kind,) if kind == "spine" else (f"left_{kind}", f"right_{kind}"))
]


def bend(part: str, joint: str, angle: float) -> Pose:
    return replace(Pose(), **{part: replace(getattr(Pose(), part), **{joint: angle})})


@pytest.mark.parametrize(("part", "joint", "limit"), CASES)
def test_the_published_limit_is_accepted(part: str, joint: str, limit: float) -> None:
    assert list(find_excesses(bend(part, joint, limit))) == []


@pytest.mark.parametrize(("part", "joint", "limit"), CASES)
def test_one_degree_beyond_the_published_limit_is_refused(
    part: str, joint: str, limit: float
) -> None:
    angle = limit + 1 if limit > 0 else limit - 1
    (excess,) = find_excesses(bend(part, joint, angle))
    assert (excess.part, excess.joint, excess.angle) == (part, joint, angle)
    assert limit in (excess.range.least, excess.range.most)


@pytest.mark.parametrize(
    ("part", "joint", "limit"),
    [("spine", "tuck", 20), ("spine", "tuck", -20), ("left_arm", "out", -45)],
)
def test_limits_of_our_own_hold_as_well(part: str, joint: str, limit: float) -> None:
    beyond = limit + 1 if limit > 0 else limit - 1
    assert list(find_excesses(bend(part, joint, limit))) == []
    assert [excess.joint for excess in find_excesses(bend(part, joint, beyond))] == [joint]


def test_every_joint_of_a_body_has_a_range_around_standing() -> None:
    for part, limits in LIMITS.items():
        assert set(limits) == set(getattr(Pose(), part).__dataclass_fields__)
        assert all(limit.least <= 0 <= limit.most for limit in limits.values())


def test_every_joint_beyond_its_range_is_told_at_once() -> None:
    pose = replace(bend("left_leg", "knee", 150), spine=replace(Pose().spine, turn=-40))
    assert {excess.joint for excess in find_excesses(pose)} == {"turn", "knee"}
