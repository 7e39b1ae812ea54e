"""Forward kinematics: from the angles of a pose to the points of a body.

Lengths are parts of the height. A body's own axes are ahead, to its left and up; the room's are
to the right of the picture, away from the viewer and up, with the floor at 0.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from builder.course.pose import Arm, Leg, Lie, Pose
from builder.sums import body
from builder.sums.space import (
    Turn,
    Vector,
    about_x,
    about_y,
    about_z,
    add,
    apply,
    dot,
    scale,
    turn_z,
)

SIDES = {"left": 1, "right": -1}
"""The body's sides, by the sign of its left axis."""
_LOW_BACK_SHARE = 0.5
"""How much of a curl happens in the low back."""
_NECK_SHARE = 0.4
"""How much of a nod happens below the head."""


@dataclass(frozen=True, slots=True)
class Slice:
    """One cross-section of the trunk in the room: an ellipsoid's middle, axes and radii."""

    middle: Vector
    axes: Turn
    radii: Vector


@dataclass(frozen=True, slots=True)
class Ball:
    """A point of the body with the flesh around it."""

    middle: Vector
    radius: float


@dataclass(frozen=True, slots=True)
class Skeleton:
    """A body in the room."""

    pelvis: Turn
    chest: Turn
    head: Slice
    trunk: tuple[Slice, ...]
    """From the seat to the shoulders."""
    points: Mapping[str, Ball]
    """Joints and ends by name, such as ``left-knee``, ``right-heel`` or ``neck``."""
    facing: float
    """Where the body faces in the room, as in `Lie`."""

    def at(self, name: str) -> Vector:
        """Return the middle of a named point."""
        return self.points[name].middle

    def moved(self, way: Vector) -> "Skeleton":
        """Return the same body somewhere else."""
        return Skeleton(
            self.pelvis,
            self.chest,
            _shift(self.head, way),
            tuple(_shift(piece, way) for piece in self.trunk),
            {n: Ball(add(b.middle, way), b.radius) for n, b in self.points.items()},
            self.facing,
        )


def build_skeleton(pose: Pose) -> Skeleton:
    """Place every point of a body whose hips are at the origin."""
    whole = turn_whole(pose.lie)
    trunk = _build_trunk(pose, whole)
    chest = trunk[-1].axes
    points: dict[str, Ball] = {}
    for side, sign in SIDES.items():
        points |= _place_leg(whole, side, getattr(pose, f"{side}_leg"))
        aside = (0.0, sign * body.SHOULDER_JOINT_OFFSET, -0.012)
        shoulder = add(trunk[-1].middle, apply(chest, aside))
        points[f"{side}-shoulder"] = Ball(shoulder, body.SHOULDER_RADIUS)
        _add_arm(points, side, getattr(pose, f"{side}_arm"), chest)
    head = _add_head(points, pose, trunk[-1])
    return Skeleton(trunk[0].axes, chest, head, trunk, points, pose.lie.facing)


def turn_whole(lie: Lie) -> Turn:
    """Return the axes of a body that lies in the room."""
    return about_z(about_y(turn_z(lie.facing), lie.lean), lie.spin)


def level_ankle(shank: Turn) -> float:
    """Return the angle of an ankle at which the sole is level, by the axes of the lower leg."""
    ahead, _, up = shank
    return math.degrees(math.atan2(-ahead[2], up[2]))


def arm_turn(chest: Turn, side: str, arm: Arm) -> Turn:
    """Return the axes of an upper arm."""
    sign = SIDES[side]
    return about_z(about_x(about_y(chest, -arm.lift), sign * arm.out), sign * arm.turn)


def leg_turn(whole: Turn, side: str, leg: Leg) -> Turn:
    """Return the axes of a thigh."""
    sign = SIDES[side]
    return about_z(about_x(about_y(whole, -leg.hip), sign * leg.out), sign * leg.turn)


def _build_trunk(pose: Pose, whole: Turn) -> tuple[Slice, ...]:
    spine, shape = pose.spine, pose.shape
    slices = []
    below, height = (0.0, 0.0, 0.0), 0.0
    for station in body.STATIONS:
        share = max(0.0, station.height) / body.TRUNK
        low = min(1.0, share / 0.6)
        high = max(0.0, (share - 0.4) / 0.6)
        curl = spine.curl * (_LOW_BACK_SHARE * low + (1 - _LOW_BACK_SHARE) * high)
        tilt = curl - spine.tuck * (1 - low)
        axes = about_y(about_z(whole, spine.turn * share), tilt)
        below = add(below, apply(axes, (0, 0, station.height - height)))
        height = station.height
        front = station.belly * shape.belly + station.chest * shape.chest
        back = station.back * shape.back
        radii = (
            station.half_depth + (front + back) / 2,
            station.half_breadth + station.sides * (shape.sides + (shape.left + shape.right) / 2),
            0.03,
        )
        ahead = station.ahead + (front - back) / 2
        aside = station.sides * (shape.left - shape.right) / 2
        slices.append(Slice(add(below, apply(axes, (ahead, aside, 0))), axes, radii))
    return tuple(slices)


def _add_head(points: dict[str, Ball], pose: Pose, top: Slice) -> Slice:
    spine = pose.spine
    neck = about_y(top.axes, _NECK_SHARE * spine.nod)
    axes = about_z(about_y(neck, (1 - _NECK_SHARE) * spine.nod), spine.look)
    base = add(top.middle, apply(top.axes, (-0.004, 0, 0.0)))
    crown = add(base, apply(neck, (0.004, 0, body.NECK)))
    middle = add(crown, apply(axes, (0.012, 0, body.HEAD / 2)))
    points["neck"] = Ball(base, body.NECK_RADIUS)
    points["chin"] = Ball(crown, body.NECK_RADIUS)
    return Slice(middle, axes, body.HEAD_RADII)


@dataclass(frozen=True, slots=True)
class Thigh:
    """What of a leg stays where it is while its knee bends."""

    axes: Turn
    hip: Vector
    knee: Vector


def place_thigh(whole: Turn, side: str, leg: Leg) -> Thigh:
    """Place the thigh of a body whose hips' middle is at the origin."""
    axes = leg_turn(whole, side, leg)
    hip = apply(whole, (0.0, SIDES[side] * body.HIP_JOINT_OFFSET, 0.0))
    return Thigh(axes, hip, add(hip, apply(axes, (0.0, 0.0, -body.THIGH))))


def place_foot(knee: Vector, shank: Turn, ankle: float) -> tuple[Vector, Vector, Vector]:
    """Return the middles of ankle, heel and toes; the ankle bends by some degrees."""
    foot = about_y(shank, -ankle)
    joint = add(knee, apply(shank, (0.0, 0.0, -body.SHANK)))
    behind = body.HEEL_RADIUS - body.HEEL_BEHIND_ANKLE
    heel = add(joint, apply(foot, (behind, 0.0, body.HEEL_RADIUS - body.ANKLE_HEIGHT)))
    ahead = body.TOE_AHEAD_OF_ANKLE - body.TOE_RADIUS
    toe = add(joint, apply(foot, (ahead, 0.0, body.TOE_RADIUS - body.ANKLE_HEIGHT)))
    return joint, heel, toe


def _place_leg(whole: Turn, side: str, leg: Leg) -> dict[str, Ball]:
    thigh = place_thigh(whole, side, leg)
    ankle, heel, toe = place_foot(thigh.knee, about_y(thigh.axes, leg.knee), leg.ankle)
    return {
        f"{side}-hip": Ball(thigh.hip, body.HIP_RADIUS),
        f"{side}-knee": Ball(thigh.knee, body.KNEE_RADIUS),
        f"{side}-ankle": Ball(ankle, body.ANKLE_RADIUS),
        f"{side}-heel": Ball(heel, body.HEEL_RADIUS),
        f"{side}-toe": Ball(toe, body.TOE_RADIUS),
    }


def _add_arm(points: dict[str, Ball], side: str, arm: Arm, chest: Turn) -> None:
    upper = arm_turn(chest, side, arm)
    fore = about_y(upper, -arm.elbow)
    sign = SIDES[side]
    hand = about_x(about_z(fore, -sign * arm.roll), -sign * arm.wrist)
    elbow = add(points[f"{side}-shoulder"].middle, apply(upper, (0, 0, -body.UPPER_ARM)))
    wrist = add(elbow, apply(fore, (0, 0, -body.FOREARM)))
    palm = add(wrist, apply(hand, (0, 0, -body.PALM_FROM_WRIST)))
    tip = add(wrist, apply(hand, (0, 0, body.FINGER_RADIUS - body.HAND)))
    thumb = add(wrist, apply(hand, (0.029, 0, -0.056)))
    points[f"{side}-elbow"] = Ball(elbow, body.ELBOW_RADIUS)
    points[f"{side}-wrist"] = Ball(wrist, body.WRIST_RADIUS)
    points[f"{side}-palm"] = Ball(palm, body.PALM_RADIUS)
    points[f"{side}-fingers"] = Ball(tip, body.FINGER_RADIUS)
    points[f"{side}-thumb"] = Ball(thumb, body.FINGER_RADIUS)


def _shift(piece: Slice, way: Vector) -> Slice:
    return Slice(add(piece.middle, way), piece.axes, piece.radii)


def lowest(piece: Slice) -> float:
    """Return the height of an ellipsoid's lowest point."""
    return piece.middle[2] - reach(piece, (0.0, 0.0, 1.0))


def reach(piece: Slice, direction: Vector) -> float:
    """Return how far an ellipsoid reaches from its middle along a unit vector."""
    parts = zip(piece.radii, piece.axes, strict=True)
    return math.hypot(*(radius * dot(axis, direction) for radius, axis in parts))


def support(piece: Slice, direction: Vector) -> Vector:
    """Return the way from an ellipsoid's middle to its point farthest along a unit vector."""
    far = reach(piece, direction)
    return add(
        *(
            scale(axis, radius * radius * dot(axis, direction) / far)
            for radius, axis in zip(piece.radii, piece.axes, strict=True)
        )
    )
