"""Contacts: a body comes to rest on the floor or a seat, so that nothing floats or sinks."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from builder.course.figure import Contacts, Sole
from builder.course.pose import Leg, Pose
from builder.sums.body import (
    FOREARM,
    HEEL_RADIUS,
    PALM_FROM_WRIST,
    PALM_RADIUS,
    TOE_RADIUS,
    UPPER_ARM,
)
from builder.sums.joint_limits import LIMITS
from builder.sums.reach import place_palm
from builder.sums.root import find_root
from builder.sums.skeleton import (
    Ball,
    Skeleton,
    build_skeleton,
    level_ankle,
    lowest,
    place_foot,
    place_thigh,
    turn_whole,
)
from builder.sums.space import Vector, about_y, add, distance, dot, scale, turn_z
from builder.sums.spots import SEAT_HEIGHT, find_spot

_SOLE = ("heel", "toe")
_JOINTS = ("left-hip", "right-hip", "left-shoulder", "right-shoulder")
_STRAIGHT = 0.995
"""An arm a little short of its whole length, so that the elbow isn't locked."""
_WRIST_HIGHER = 0.014
_LEAN_SEARCH = 45.0
_KNEE_SEARCH = 50.0
_KEPT = 512
"""How many bodies at rest are kept: checks and drawings ask for the same one again and again."""
_MOST_KNEE = LIMITS["left_leg"]["knee"].most


@lru_cache(_KEPT)
def settle(pose: Pose, contacts: Contacts) -> tuple[Pose, Skeleton]:
    """Return the pose with its contacts made, and the body where it comes to rest."""
    if contacts.tilts_on:
        pose = _tilt(pose, contacts)
    for side, sole in contacts.soles.items():
        pose = _level_sole(pose, side) if sole is Sole.LEVEL else _lower_foot(pose, side, contacts)
    for side, place in contacts.hands.items():
        pose = _put_hand(pose, side, place, contacts)
    return pose, _lower(build_skeleton(pose), contacts)


def find_gaps(pose: Pose, contacts: Contacts) -> Iterator[tuple[str, float]]:
    """Yield how far each contact of a settled body is from what it should touch."""
    pose, skeleton = settle(pose, contacts)
    for side in contacts.soles:
        yield f"{side}-foot", abs(bottom(skeleton, (f"{side}-foot",)))
    for side, place in contacts.hands.items():
        point, normal = find_spot(skeleton, side, place, 0.0)
        palm = skeleton.points[f"{side}-palm"]
        wanted = add(point, scale(normal, palm.radius))
        yield f"{side}-hand", distance(palm.middle, wanted)


def bottom(skeleton: Skeleton, parts: Iterable[str]) -> float:
    """Return the height of the lowest point of some parts, such as ``trunk`` or ``left-foot``."""
    return min(height for part in parts for height in _bottoms(skeleton, part))


def _bottoms(skeleton: Skeleton, part: str) -> list[float]:
    if part == "head":
        return [lowest(skeleton.head)]
    if part == "seat":
        return [lowest(piece) for piece in skeleton.trunk[:3]]
    if part == "trunk":
        return [*map(lowest, skeleton.trunk), *(_under(skeleton, name) for name in _JOINTS)]
    side, _, name = part.partition("-")
    names = {"foot": _SOLE, "hand": ("palm", "fingers")}.get(name, (name,))
    return [_under(skeleton, f"{side}-{point}") for point in names]


def _under(skeleton: Skeleton, point: str) -> float:
    return _lowest_of(skeleton.points[point])


def _lowest_of(ball: Ball) -> float:
    return ball.middle[2] - ball.radius


def _lower(skeleton: Skeleton, contacts: Contacts) -> Skeleton:
    """Bring a body down to the floor, what it stands or kneels on over the origin."""
    ahead = turn_z(skeleton.facing)[0]
    way = scale(ahead, -_find_anchor(skeleton, ahead, contacts))
    return skeleton.moved((way[0], way[1], -_floor(skeleton, contacts)))


def _find_anchor(skeleton: Skeleton, ahead: Vector, contacts: Contacts) -> float:
    """Return how far ahead is what stays where it is while a body moves; the hips if it lies."""
    names = [part for part in contacts.rests_on if part.endswith(("-foot", "-knee"))]
    if contacts.on_seat:
        names = [f"{side}-foot" for side in contacts.soles]
    points = [skeleton.at(name.replace("-foot", "-ankle")) for name in names]
    return sum(dot(point, ahead) for point in points) / (len(points) or 1)


def _floor(skeleton: Skeleton, contacts: Contacts) -> float:
    """Return how high the floor is, seen from a body that has not come down yet."""
    seat = SEAT_HEIGHT if contacts.on_seat else 0.0
    return bottom(skeleton, contacts.rests_on) - seat


def _tilt(pose: Pose, contacts: Contacts) -> Pose:
    """Lean a body until both of its groups of supports are down, its thighs as they stood."""

    def leaned(lean: float) -> Pose:
        more = lean - pose.lie.lean
        return replace(
            pose,
            lie=replace(pose.lie, lean=lean),
            left_leg=replace(pose.left_leg, hip=pose.left_leg.hip + more),
            right_leg=replace(pose.right_leg, hip=pose.right_leg.hip + more),
        )

    def miss(lean: float) -> float:
        skeleton = build_skeleton(leaned(lean))
        floor = bottom(skeleton, contacts.rests_on)
        gaps = [_arm_gap(skeleton, hand.partition("-")[0], floor) for hand in contacts.tilts_on]
        return min(gaps, key=abs)

    now = pose.lie.lean
    return leaned(find_root(miss, now, now - _LEAN_SEARCH, now + _LEAN_SEARCH))


def _arm_gap(skeleton: Skeleton, side: str, floor: float) -> float:
    """Return by how much a straight arm is too short for its place on the floor."""
    (x, y, z), _ = find_spot(skeleton, side, "planted", floor)
    ahead = turn_z(skeleton.facing)[0]
    wrist = add((x, y, z + PALM_RADIUS + _WRIST_HIGHER), scale(ahead, -PALM_FROM_WRIST))
    return distance(skeleton.at(f"{side}-shoulder"), wrist) - _STRAIGHT * (UPPER_ARM + FOREARM)


def _lower_foot(pose: Pose, side: str, contacts: Contacts) -> Pose:
    """Bend a knee until its foot is down."""
    is_flat = contacts.soles[side] is Sole.FLAT
    now = _leg(pose, side)
    floor = _floor(build_skeleton(pose), contacts)
    thigh = place_thigh(turn_whole(pose.lie), side, now)

    def miss(knee: float) -> float:
        shank = about_y(thigh.axes, knee)
        ankle = level_ankle(shank) if is_flat else now.ankle
        _, heel, toe = place_foot(thigh.knee, shank, ankle)
        return min(heel[2] - HEEL_RADIUS, toe[2] - TOE_RADIUS) - floor

    low, high = max(0.0, now.knee - _KNEE_SEARCH), min(_MOST_KNEE, now.knee + _KNEE_SEARCH)
    knee = find_root(miss, now.knee, low, high)
    ankle = level_ankle(about_y(thigh.axes, knee)) if is_flat else now.ankle
    return _with_leg(pose, side, replace(now, knee=knee, ankle=ankle))


def _level_sole(pose: Pose, side: str) -> Pose:
    """Turn an ankle until heel and toes are level."""
    leg = _leg(pose, side)
    thigh = place_thigh(turn_whole(pose.lie), side, leg)
    ankle = level_ankle(about_y(thigh.axes, leg.knee))
    return _with_leg(pose, side, replace(leg, ankle=ankle))


def _leg(pose: Pose, side: str) -> Leg:
    return pose.left_leg if side == "left" else pose.right_leg


def _with_leg(pose: Pose, side: str, leg: Leg) -> Pose:
    return replace(pose, left_leg=leg) if side == "left" else replace(pose, right_leg=leg)


def _put_hand(pose: Pose, side: str, place: str, contacts: Contacts) -> Pose:
    skeleton = build_skeleton(pose)
    floor = _floor(skeleton, contacts)
    arm = place_palm(side, skeleton, find_spot(skeleton, side, place, floor), floor)
    return replace(pose, left_arm=arm) if side == "left" else replace(pose, right_arm=arm)
