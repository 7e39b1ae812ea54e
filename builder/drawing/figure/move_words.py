"""Moves in words: what changes from one picture of a figure to the other, and what presses."""

from collections.abc import Iterator

from builder.course.base_poses import BASE_POSES
from builder.course.pose import Pose
from builder.drawing.figure.clauses import (
    CURLS,
    HANDS,
    KNEES,
    KNEES_CLOSE,
    KNEES_OPEN,
    LIMBS,
    PRESSES_BALL,
    PRESSES_OUT,
    ROLLS,
    THIGHS,
    TIPS,
    TUCKS,
    TURNS,
    Way,
)
from builder.drawing.figure.stage import Scene
from builder.language import Language, mark
from builder.sums.skeleton import SIDES
from builder.sums.space import Vector, dot, turn_z
from builder.sums.travel import find_travel, measure_travel

_ENDS = {"arm": "palm", "leg": "ankle"}
_LEAST_MOVE = 0.06
"""In heights of the body."""
_LEAST_TURN, _LEAST_CURL, _LEAST_KNEE, _LEAST_TUCK, _LEAST_LEAN = 6.0, 12.0, 5.0, 8.0, 10.0
"""Degrees from which a turn, a rounding, an opening knee, a tuck and a leaning are told."""
_ONTO = {"all-fours": mark("the body comes onto hands and knees")}
"""Where "comes to" and the words of the position make no sentence."""
_UPRIGHT = 0.7
_LYING = 70.0
"""A body that leans less is upright; it tips forward and straightens."""


def name_moves(before: Scene, after: Scene, language: Language) -> list[str]:
    """Name what moves from one scene to the other: the trunk first, then limbs and knees."""
    base = after.stance.base
    if before.stance.base != base:
        position = language.say(BASE_POSES[base].words)
        text = _ONTO.get(base, mark("the body comes to {position}"))
        return [language.say(text, position=position)]
    first, second = before.stance.pose, after.stance.pose
    roll = second.lie.spin - first.lie.spin
    if abs(roll) >= _LEAST_TURN:
        # Whatever hangs on a rolling body goes with it.
        return [language.say(_by_sign(ROLLS, roll))]
    limbs = _pair_up(_name_limbs(before, after))
    texts = (*_name_trunk(first, second), *limbs, *_name_knees(first, second))
    return [language.say(text) for text in texts]


def name_presses(
    inhale: Scene, exhale: Scene, language: Language
) -> Iterator[tuple[Scene | None, str]]:
    """Yield what presses and in which scene; None where it presses in both alike."""
    if inhale.stance.press == exhale.stance.press:
        scenes: tuple[tuple[Scene | None, Scene], ...] = ((None, inhale),)
    else:
        scenes = ((inhale, inhale), (exhale, exhale))
    for when, scene in scenes:
        words = _name_press(scene, language)
        if words:
            yield when, words


def _name_press(scene: Scene, language: Language) -> str:
    has_ball = "ball" in dict(scene.props)
    names, count = [], 0
    for end, words in (("hand", HANDS), ("knee", THIGHS if has_ball else KNEES)):
        sides = [side for side in SIDES if f"{side}-{end}" in scene.stance.press]
        count += len(sides)
        names += [language.say(words.of(sides))] if sides else []
    if not names:
        return ""
    one, several = PRESSES_BALL if has_ball else PRESSES_OUT
    return language.say(several if count > 1 else one, who=language.all_of(names))


def _name_trunk(before: Pose, after: Pose) -> Iterator[str]:
    lean = after.lie.lean - before.lie.lean
    if abs(lean) >= _LEAST_LEAN and max(abs(after.lie.lean), abs(before.lie.lean)) < _LYING:
        yield _by_sign(TIPS, lean)
    first, second = before.spine, after.spine
    for words, change, least in (
        (TURNS, second.turn - first.turn, _LEAST_TURN),
        (CURLS, second.curl - first.curl, _LEAST_CURL),
        (TUCKS, second.tuck - first.tuck, _LEAST_TUCK),
    ):
        if abs(change) >= least:
            yield _by_sign(words, change)


def _name_limbs(before: Scene, after: Scene) -> Iterator[tuple[str, str, Way]]:
    """Yield side, limb and way of each limb that moves."""
    for limb, end in _ENDS.items():
        for side in SIDES:
            bodies = before.skeleton, after.skeleton
            if measure_travel(*bodies, side, end) >= _LEAST_MOVE:
                yield side, limb, _find_way(limb, find_travel(*bodies, side, end), after)


def _pair_up(moves: Iterator[tuple[str, str, Way]]) -> Iterator[str]:
    """Tell both limbs of a kind at once where they go the same way."""
    found = list(moves)
    for side, limb, way in found:
        if (_other(side), limb, way) not in found:
            yield LIMBS[limb, way].of([side])
        elif side == "left":
            yield LIMBS[limb, way].both


def _name_knees(before: Pose, after: Pose) -> Iterator[str]:
    wider = {
        side: getattr(after, f"{side}_leg").out - getattr(before, f"{side}_leg").out
        for side in SIDES
    }
    for words, sign in ((KNEES_OPEN, 1), (KNEES_CLOSE, -1)):
        sides = [side for side, gap in wider.items() if sign * gap >= _LEAST_KNEE]
        if sides:
            yield words.of(sides)


def _find_way(limb: str, way: Vector, scene: Scene) -> Way:
    """Return the main direction of a move, as the body has it."""
    up = scene.skeleton.chest[2]
    to_head = dot(way, up)
    if abs(up[2]) > _UPRIGHT:
        forward = dot(way, turn_z(scene.skeleton.facing)[0])
        if abs(forward) > abs(way[2]):
            return Way.FORWARD if forward > 0 else Way.BACK
        return Way.UP if way[2] > 0 else Way.DOWN
    if abs(way[2]) >= abs(to_head):
        return Way.UP if way[2] > 0 else Way.DOWN
    if limb == "leg":
        return Way.NEARER if to_head > 0 else Way.AWAY
    return Way.PAST_HEAD if to_head > 0 else Way.FROM_HEAD


def _by_sign(texts: tuple[str, str], change: float) -> str:
    """Return what is said of an angle that grows, or of one that shrinks."""
    growing, shrinking = texts
    return growing if change > 0 else shrinking


def _other(side: str) -> str:
    return "right" if side == "left" else "left"
