"""Poses at random, every joint within the range that is drawn."""

from hypothesis import strategies as st

from builder.course.pose import Arm, Leg, Lie, Pose, Shape, Spine
from builder.sums.joint_limits import LIMITS

_KINDS = {"spine": Spine, "left_arm": Arm, "right_arm": Arm, "left_leg": Leg, "right_leg": Leg}
_AROUND = st.floats(-180, 180)
_SHARES = st.floats(0, 1)


def _within(part: str) -> st.SearchStrategy[Spine | Arm | Leg]:
    angles = {joint: st.floats(limit.least, limit.most) for joint, limit in LIMITS[part].items()}
    return st.builds(_KINDS[part], **angles)


lies = st.builds(Lie, lean=_AROUND, spin=_AROUND, facing=_AROUND)
_PLACES = ("belly", "sides", "back", "chest", "left", "right")
shapes = st.builds(Shape, **dict.fromkeys(_PLACES, _SHARES))
poses = st.builds(Pose, lie=lies, shape=shapes, **{part: _within(part) for part in _KINDS})
