"""A figure in words, for those who don't see it; made from its poses, so never apart from it."""

from collections.abc import Iterable, Mapping

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure
from builder.course.pose import Pose
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES
from builder.sums.space import Vector, dot, length, subtract

_SPOTS = {
    "belly": "on the belly",
    "navel": "beside the navel",
    "low-belly": "low on the belly",
    "front-ribs": "where the ribs meet in front",
    "chest": "on the chest",
    "ribs": "on the lower ribs",
    "waist": "on the waist",
    "hip-bone": "on the hip bone",
    "low-back": "under the low back",
    "back-ribs": "on the ribs of the back",
    "upper-thigh": "high on the thigh",
    "mid-thigh": "halfway down the thigh",
    "under-back": "under the low back",
    "thigh": "on the thigh",
    "pinned-ball": "on the ball",
    "under-head": "under the forehead",
    "under-forehead": "under the forehead",
    "floor": "on the floor",
    "planted": "on the floor",
    "seat": "on the seat of the chair",
    "seat-beside": "on the seat of the chair beside",
    "chair-back": "on the back of the chair beside",
}
_BOTH_SPOTS = {
    "hip-bone": "on the hip bones",
    "thigh": "on the thighs",
    "mid-thigh": "halfway down the thighs",
    "upper-thigh": "high on the thighs",
}
"""Of places that are one on each side, where both hands have theirs."""
_BREATHS = {
    BreathPlace.BELLY: "the belly rises",
    BreathPlace.SIDES: "the ribs widen to the sides",
    BreathPlace.LEFT: "the left ribs widen",
    BreathPlace.RIGHT: "the right ribs widen",
    BreathPlace.BACK: "the ribs widen to the back",
    BreathPlace.CHEST: "the chest lifts",
}
_ENDS = {
    "left arm": "left-palm",
    "right arm": "right-palm",
    "left leg": "left-ankle",
    "right leg": "right-ankle",
}
_LEAST_MOVE = 0.06
_LEAST_TURN, _LEAST_CURL, _LEAST_KNEE = 6.0, 12.0, 5.0
"""Degrees from which a turn, a rounding and an opening knee are told."""
_UPRIGHT = 0.7
_FACING_DOWN = 0.5
"""How far the chest's front points down, of 1, where a belly hangs."""


def name_figure(figure: Figure) -> str:
    """Return a figure's title."""
    return _sentence(BASE_POSES[figure.inhale.base].words)


def describe(figure: Figure, scenes: tuple[Scene, Scene]) -> str:
    """Return how the body lies, where the hands are, and what each breath changes."""
    inhale, exhale = scenes
    start = BASE_POSES[figure.inhale.base].words
    usual = BASE_POSES[figure.inhale.base].contacts.hands
    places = figure.inhale.contacts.hands
    told = {side: place for side, place in places.items() if usual.get(side) != place}
    hands = list(_name_hands(told))
    opening = _sentence("; ".join([start, *hands]) + ".")
    ins = [*_name_breaths(figure, inhale), *_name_moves(exhale, inhale)]
    outs = _name_moves(inhale, exhale)
    if figure.exhale.pose.spine.tuck > figure.inhale.pose.spine.tuck:
        outs.append("the tail tucks")
    if figure.exhale.base != figure.inhale.base:
        outs.append(f"the body comes to {BASE_POSES[figure.exhale.base].words}")
    parts = [opening]
    if ins:
        parts.append(f"On the in-breath {_join(ins)}.")
    if outs:
        parts.append(f"On the out-breath {_join(outs)}.")
    if figure.props:
        parts.append(f"With {_join([prop.replace('-', ' ') for prop in figure.props])}.")
    return " ".join(parts)


def _name_hands(hands: Mapping[str, str]) -> Iterable[str]:
    places = set(hands.values())
    if len(hands) == 2 and len(places) == 1:
        place = places.pop()
        yield f"both hands {_BOTH_SPOTS.get(place, _SPOTS[place])}"
        return
    for side in sorted(hands):
        yield f"{side} hand {_SPOTS[hands[side]]}"


def _name_breaths(figure: Figure, scene: Scene) -> Iterable[str]:
    for place in figure.breath:
        is_hanging = place is BreathPlace.BELLY and scene.skeleton.chest[0][2] < -_FACING_DOWN
        yield "the belly fills downwards" if is_hanging else _BREATHS[place]


def _name_moves(before: Scene, after: Scene) -> list[str]:
    """Name what moves from one scene to the other: the trunk first, then limbs and knees."""
    trunk = list(_name_trunk(before.stance.pose, after.stance.pose))
    limbs = []
    for limb, point in _ENDS.items():
        way = subtract(after.skeleton.at(point), before.skeleton.at(point))
        if length(way) >= _LEAST_MOVE:
            limbs.append(f"the {limb} {_name_way(limb, way, after)}")
    if "rolls" in " ".join(trunk):
        return trunk  # whatever hangs on a rolling body goes with it
    return [*trunk, *limbs, *_name_knees(before.stance.pose, after.stance.pose)]


def _name_trunk(before: Pose, after: Pose) -> Iterable[str]:
    spin = after.lie.spin - before.lie.spin
    if abs(spin) >= _LEAST_TURN:
        yield f"the body rolls to its {'left' if spin > 0 else 'right'}"
    turn = after.spine.turn - before.spine.turn
    if abs(turn) >= _LEAST_TURN:
        yield f"the chest turns to its {'left' if turn > 0 else 'right'}"
    curl = after.spine.curl - before.spine.curl
    if abs(curl) >= _LEAST_CURL:
        yield "the back rounds" if curl > 0 else "the back sinks"


def _name_knees(before: Pose, after: Pose) -> Iterable[str]:
    wider = {
        side: getattr(after, f"{side}_leg").out - getattr(before, f"{side}_leg").out
        for side in SIDES
    }
    for way, sign in (("opens outwards", 1), ("comes back in", -1)):
        sides = [side for side, gap in wider.items() if sign * gap >= _LEAST_KNEE]
        if len(sides) == 1:
            yield f"the {sides[0]} knee {way}"
        elif sides:
            yield "both knees press out" if sign > 0 else "both knees ease in"


def _name_way(limb: str, way: Vector, scene: Scene) -> str:
    """Name the main direction of a move, as the body has it."""
    up = scene.skeleton.chest[2]
    to_head = dot(way, up)
    if abs(way[2]) >= abs(to_head) or abs(up[2]) > _UPRIGHT:
        return "lifts" if way[2] > 0 else "lowers"
    if limb.endswith("leg"):
        return "comes nearer" if to_head > 0 else "moves away"
    return "reaches past the head" if to_head > 0 else "comes back"


def _join(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
