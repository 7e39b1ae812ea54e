"""Inverse kinematics: the joint angles with which a hand or a foot gets to a place.

A limb of two bones has one way to bend once its middle joint is told where to point; the angles
are then read off the bones, so that a solved pose is a pose like any other.
"""

import math
from dataclasses import replace

from builder.course.pose import Arm
from builder.sums import body
from builder.sums.joint_limits import LIMITS
from builder.sums.skeleton import SIDES, Skeleton, arm_turn
from builder.sums.space import (
    Turn,
    Vector,
    about_y,
    add,
    apply,
    between,
    cross,
    distance,
    dot,
    length,
    scale,
    subtract,
    unit,
)

_SHARES = (1.0, *(0.5,) * 9)
"""How far each round goes to the wrist that it finds; whole steps may swing to and fro."""
_ELBOW_AHEAD = (-0.6, -0.2, 0.2, 0.6, 1.2)
"""How far before the side an elbow may point, in the order in which it is tried."""
_MOST_MISS = 0.010
"""A palm that would miss its place by more reaches it with a straight wrist instead."""
_ROLL, _WRIST = LIMITS["left_arm"]["roll"], LIMITS["left_arm"]["wrist"]


def place_palm(
    side: str, skeleton: Skeleton, spot: tuple[Vector, Vector], floor: float = -math.inf
) -> Arm:
    """Return the arm whose palm lies on a spot, given as a point and the way out of the surface.

    The elbow points aside, and back as far as it stays over the floor. A spot out of reach is
    reached for.
    """
    best, highest = Arm(), -math.inf
    for ahead in _ELBOW_AHEAD:
        arm = _place(side, skeleton, spot, ahead)
        height = _elbow_bottom(side, skeleton, arm)
        if height >= floor:
            return arm
        if height > highest:
            best, highest = arm, height
    return best


def _elbow_bottom(side: str, skeleton: Skeleton, arm: Arm) -> float:
    upper = arm_turn(skeleton.chest, side, arm)
    shoulder = skeleton.at(f"{side}-shoulder")
    return shoulder[2] - body.UPPER_ARM * upper[2][2] - body.ELBOW_RADIUS


def _place(side: str, skeleton: Skeleton, spot: tuple[Vector, Vector], ahead: float) -> Arm:
    point, normal = spot
    chest = skeleton.chest
    shoulder = skeleton.at(f"{side}-shoulder")
    pole = add(scale(chest[1], SIDES[side]), scale(chest[0], ahead), scale(chest[2], -0.5))
    palm = add(point, scale(normal, body.PALM_RADIUS))
    arm, wrist, miss = Arm(), palm, math.inf
    for share in _SHARES:
        elbow = _middle_joint(shoulder, wrist, pole, (body.UPPER_ARM, body.FOREARM))
        arm = _read_arm(side, chest, subtract(elbow, shoulder), subtract(wrist, elbow))
        arm, hand = _lay_hand(arm, side, chest, normal)
        ends = scale(unit(subtract(wrist, elbow)), body.FOREARM), scale(hand, body.PALM_FROM_WRIST)
        miss = distance(add(elbow, *ends), palm)
        wrist = between(wrist, subtract(palm, ends[1]), share)
    if miss <= _MOST_MISS:
        return arm
    forearm_and_palm = body.FOREARM + body.PALM_FROM_WRIST
    elbow = _middle_joint(shoulder, palm, pole, (body.UPPER_ARM, forearm_and_palm))
    arm = _read_arm(side, chest, subtract(elbow, shoulder), subtract(palm, elbow))
    return replace(_lay_hand(arm, side, chest, normal)[0], wrist=0.0)


def _lay_hand(arm: Arm, side: str, chest: Turn, normal: Vector) -> tuple[Arm, Vector]:
    """Turn forearm and wrist until the palm faces a surface; return the way the hand points."""
    fore = about_y(arm_turn(chest, side, arm), -arm.elbow)
    sign = SIDES[side]
    x, y, z = into(fore, normal)
    roll = _clamp(math.degrees(math.atan2(x, sign * y)), _ROLL.least, _ROLL.most)
    c, s = math.cos(math.radians(roll)), math.sin(math.radians(roll))
    facing = sign * y * c + x * s
    wrist = math.degrees(math.atan2(-z, facing)) if facing > 0 else 0.0
    wrist = _clamp(wrist, _WRIST.least, _WRIST.most)
    a = math.radians(wrist)
    way = apply(fore, (-math.sin(a) * s, -sign * math.sin(a) * c, -math.cos(a)))
    return Arm(arm.lift, arm.out, arm.turn, arm.elbow, roll, wrist), way


def _clamp(value: float, low: float, high: float) -> float:
    return max(low, min(high, value))


def into(axes: Turn, vector: Vector) -> Vector:
    """Return a vector of the room as a set of axes sees it."""
    return dot(axes[0], vector), dot(axes[1], vector), dot(axes[2], vector)


def _middle_joint(start: Vector, end: Vector, pole: Vector, bones: tuple[float, float]) -> Vector:
    """Return where elbow or knee lies; towards the end where that is out of reach."""
    first, second = bones
    gap = distance(start, end)
    gap = max(abs(first - second) + 1e-6, min(first + second - 1e-6, gap))
    along = unit(subtract(end, start))
    aside = subtract(pole, scale(along, dot(pole, along)))
    if length(aside) < 1e-9:
        aside = cross(along, (0.0, 0.0, 1.0) if abs(along[2]) < 0.9 else (1.0, 0.0, 0.0))
    reach = (first * first - second * second + gap * gap) / (2 * gap)
    height = math.sqrt(max(0.0, first * first - reach * reach))
    return add(start, scale(along, reach), scale(unit(aside), height))


def _read_arm(side: str, chest: Turn, upper: Vector, lower: Vector) -> Arm:
    """Read the angles off two bones."""
    sign = SIDES[side]
    x, y, z = into(chest, unit(upper))
    out = math.degrees(math.asin(_clamp(sign * y, -1.0, 1.0)))
    lift = math.degrees(math.atan2(x, -z))
    straight = Arm(lift=lift, out=out)
    a, b, c = into(arm_turn(chest, side, straight), unit(lower))
    elbow = math.degrees(math.acos(_clamp(-c, -1.0, 1.0)))
    turn = math.degrees(math.atan2(sign * b, a))
    return Arm(lift, out, turn, elbow)
