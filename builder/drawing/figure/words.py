"""A figure in words, for those who don't see it; made from its poses, so never apart from it."""

from collections.abc import Iterable, Mapping

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure
from builder.drawing.figure.move_words import join_words, name_moves, name_presses
from builder.drawing.figure.stage import Scene

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
    parts = [_sentence("; ".join([start, *_name_hands(told)]) + ".")]
    ins = [*_name_breaths(figure, inhale), *name_moves(exhale, inhale)]
    outs = name_moves(inhale, exhale)
    for when, pressing in name_presses(inhale, exhale):
        parts += [f"All the time {pressing}."] if when is None else []
        ins += [pressing] if when is inhale else []
        outs += [pressing] if when is exhale else []
    for breath, changes in (("in", ins), ("out", outs)):
        if changes:
            parts.append(f"On the {breath}-breath {join_words(changes)}.")
    if figure.props:
        parts.append(f"With {join_words([prop.replace('-', ' ') for prop in figure.props])}.")
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


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
