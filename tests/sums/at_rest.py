"""Bodies at rest in the base poses, for the tests of what lies on and stands around them."""

from dataclasses import replace

from builder.course.base_poses import BASE_POSES
from builder.sums.rest import settle
from builder.sums.skeleton import Skeleton

HEIGHT_CM = 175
"""The height for which seats and props are given in cm."""


def stand(name: str, facing: float = 0.0) -> Skeleton:
    """Return the body of a base pose where it comes to rest, turned towards somewhere."""
    base = BASE_POSES[name]
    lie = replace(base.pose.lie, facing=base.pose.lie.facing + facing)
    return settle(replace(base.pose, lie=lie), base.contacts)[1]


def reach_out(name: str, lift: float) -> Skeleton:
    """Return the body of a base pose, both arms lifted ahead."""
    base = BASE_POSES[name]
    arms = {f"{side}_arm": replace(base.pose.left_arm, lift=lift) for side in ("left", "right")}
    return settle(replace(base.pose, **arms), base.contacts)[1]
