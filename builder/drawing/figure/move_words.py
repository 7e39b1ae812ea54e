"""Moves in words: what changes from one picture of a figure to the other, and what presses."""

from collections.abc import Iterator

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Pose
from builder.drawing.figure.stage import Scene
from builder.sums.skeleton import SIDES
from builder.sums.space import Vector, dot, turn_z
from builder.sums.travel import find_travel, measure_travel

_ENDS = {"arm": "palm", "leg": "ankle"}
_LEAST_MOVE = 0.06
"""In heights of the body."""
_LEAST_TURN, _LEAST_CURL, _LEAST_KNEE, _LEAST_TUCK, _LEAST_LEAN = 6.0, 12.0, 5.0, 8.0, 10.0
"""Degrees from which a turn, a rounding, an opening knee, a tuck and a leaning are told."""
_PLURALS = {
    "lifts": "lift",
    "lowers": "lower",
    "moves forward": "move forward",
    "moves back": "move back",
    "moves away": "move away",
    "comes nearer": "come nearer",
    "comes back": "come back",
    "reaches past the head": "reach past the head",
}
_UPRIGHT = 0.7
_LYING = 70.0
"""A body that leans less is upright; it tips forward and straightens."""


def name_moves(before: Scene, after: Scene) -> list[str]:
    """Name what moves from one scene to the other: the trunk first, then limbs and knees."""
    if before.stance.base != after.stance.base:
        words = f"the body comes to {BASE_POSES[after.stance.base].words}"
        return [words.replace(" to on ", " onto ")]
    first, second = before.stance.pose, after.stance.pose
    if abs(second.lie.spin - first.lie.spin) >= _LEAST_TURN:
        # Whatever hangs on a rolling body goes with it.
        return [f"the body rolls to its {_side(second.lie.spin - first.lie.spin)}"]
    limbs = _pair_up(_name_limbs(before, after))
    return [*_name_trunk(first, second), *limbs, *_name_knees(first, second)]


def name_presses(inhale: Scene, exhale: Scene) -> Iterator[tuple[Scene | None, str]]:
    """Yield what presses and in which scene; None where it presses in both alike."""
    if inhale.stance.press == exhale.stance.press:
        scenes: tuple[tuple[Scene | None, Scene], ...] = ((None, inhale),)
    else:
        scenes = ((inhale, inhale), (exhale, exhale))
    for when, scene in scenes:
        words = _name_press(scene)
        if words:
            yield when, words


def join_words(parts: list[str]) -> str:
    """Join words as a sentence does."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _name_press(scene: Scene) -> str:
    has_ball = "ball" in dict(scene.props)
    ends = {"hand": "hands", "knee": "thighs" if has_ball else "knees"}
    names = []
    for end, plural in ends.items():
        sides = [side for side in SIDES if f"{side}-{end}" in scene.stance.press]
        if len(sides) == len(SIDES):
            names.append(f"both {plural}")
        elif sides:
            names.append(f"the {sides[0]} {plural.removesuffix('s')}")
    if not names:
        return ""
    verb = "press" if len(names) > 1 or names[0].startswith("both") else "presses"
    return f"{join_words(names)} {verb} {'the ball' if has_ball else 'outwards'}"


def _name_trunk(before: Pose, after: Pose) -> Iterator[str]:
    lean = after.lie.lean - before.lie.lean
    if abs(lean) >= _LEAST_LEAN and max(abs(after.lie.lean), abs(before.lie.lean)) < _LYING:
        yield "the body tips forward" if lean > 0 else "the body straightens"
    turn = after.spine.turn - before.spine.turn
    if abs(turn) >= _LEAST_TURN:
        yield f"the chest turns to its {_side(turn)}"
    curl = after.spine.curl - before.spine.curl
    if abs(curl) >= _LEAST_CURL:
        yield "the back rounds" if curl > 0 else "the back sinks"
    tuck = after.spine.tuck - before.spine.tuck
    if abs(tuck) >= _LEAST_TUCK:
        yield "the tail tucks" if tuck > 0 else "the tail rolls back"


def _name_limbs(before: Scene, after: Scene) -> Iterator[tuple[str, str, str]]:
    """Yield side, limb and way of each limb that moves."""
    for limb, end in _ENDS.items():
        for side in SIDES:
            bodies = before.skeleton, after.skeleton
            if measure_travel(*bodies, side, end) >= _LEAST_MOVE:
                yield side, limb, _name_way(limb, find_travel(*bodies, side, end), after)


def _pair_up(moves: Iterator[tuple[str, str, str]]) -> list[str]:
    """Tell both limbs of a kind at once where they go the same way."""
    found = list(moves)
    words = []
    for side, limb, way in found:
        if (_other(side), limb, way) not in found:
            words.append(f"the {side} {limb} {way}")
        elif side == "left":
            words.append(f"both {limb}s {_PLURALS[way]}")
    return words


def _name_knees(before: Pose, after: Pose) -> Iterator[str]:
    wider = {
        side: getattr(after, f"{side}_leg").out - getattr(before, f"{side}_leg").out
        for side in SIDES
    }
    for way, sign in (("opens outwards", 1), ("comes back in", -1)):
        sides = [side for side, gap in wider.items() if sign * gap >= _LEAST_KNEE]
        if len(sides) == 1:
            yield f"the {sides[0]} knee {way}"
        elif sides:
            yield "both knees move apart" if sign > 0 else "both knees ease in"


def _name_way(limb: str, way: Vector, scene: Scene) -> str:
    """Name the main direction of a move, as the body has it."""
    up = scene.skeleton.chest[2]
    to_head = dot(way, up)
    if abs(up[2]) > _UPRIGHT:
        forward = dot(way, turn_z(scene.skeleton.facing)[0])
        if abs(forward) > abs(way[2]):
            return "moves forward" if forward > 0 else "moves back"
        return "lifts" if way[2] > 0 else "lowers"
    if abs(way[2]) >= abs(to_head):
        return "lifts" if way[2] > 0 else "lowers"
    if limb == "leg":
        return "comes nearer" if to_head > 0 else "moves away"
    return "reaches past the head" if to_head > 0 else "comes back"


def _side(turn: float) -> str:
    """Return the body's own side of a turn."""
    return "left" if turn > 0 else "right"


def _other(side: str) -> str:
    return "right" if side == "left" else "left"
