"""A figure in words, for those who don't see it; made from its poses, so never apart from it."""

from collections.abc import Iterable, Mapping

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure
from builder.drawing.figure.move_words import name_moves, name_presses
from builder.drawing.figure.stage import Scene
from builder.language import Language, mark

_SPOTS = {
    "belly": mark("on the belly"),
    "navel": mark("beside the navel"),
    "low-belly": mark("low on the belly"),
    "front-ribs": mark("where the ribs meet in front"),
    "chest": mark("on the chest"),
    "ribs": mark("on the lower ribs"),
    "waist": mark("on the waist"),
    "hip-bone": mark("on the hip bone"),
    "low-back": mark("under the low back"),
    "back-ribs": mark("on the ribs of the back"),
    "upper-thigh": mark("high on the thigh"),
    "mid-thigh": mark("halfway down the thigh"),
    "under-back": mark("under the low back"),
    "thigh": mark("on the thigh"),
    "pinned-ball": mark("on the ball"),
    "under-head": mark("under the forehead"),
    "under-forehead": mark("under the forehead"),
    "floor": mark("on the floor"),
    "planted": mark("on the floor"),
    "seat": mark("on the seat of the chair"),
    "seat-beside": mark("on the seat of the chair beside"),
    "chair-back": mark("on the back of the chair beside"),
}
_BOTH_SPOTS = {
    "hip-bone": mark("on the hip bones"),
    "thigh": mark("on the thighs"),
    "mid-thigh": mark("halfway down the thighs"),
    "upper-thigh": mark("high on the thighs"),
}
"""Of places that are one on each side, where both hands have theirs."""
_BREATHS = {
    BreathPlace.BELLY: mark("the belly rises"),
    BreathPlace.SIDES: mark("the ribs widen to the sides"),
    BreathPlace.LEFT: mark("the left ribs widen"),
    BreathPlace.RIGHT: mark("the right ribs widen"),
    BreathPlace.BACK: mark("the ribs widen to the back"),
    BreathPlace.CHEST: mark("the chest lifts"),
}
_PROPS = {
    "mat": mark("mat"),
    "ball": mark("ball"),
    "block": mark("block"),
    "pillow": mark("pillow"),
    "towel": mark("towel"),
    "chair": mark("chair"),
    "loop-band": mark("loop band"),
    "long-band": mark("long band"),
    "strap": mark("strap"),
    "wall": mark("wall"),
    "timer": mark("timer"),
    "bag": mark("bag"),
}
"""What is drawn, whatever a course calls it; ids of ``builder/sums/solids.py``."""
_FACING_DOWN = 0.5
"""How far the chest's front points down, of 1, where a belly hangs."""


def name_figure(figure: Figure, language: Language) -> str:
    """Return a figure's title."""
    return _sentence(language.say(BASE_POSES[figure.inhale.base].words))


def describe(figure: Figure, scenes: tuple[Scene, Scene], language: Language) -> str:
    """Return how the body lies, where the hands are, and what each breath changes."""
    inhale, exhale = scenes
    base = BASE_POSES[figure.inhale.base]
    usual, places = base.contacts.hands, figure.inhale.contacts.hands
    told = {side: place for side, place in places.items() if usual.get(side) != place}
    hands = _name_hands(told, language)
    parts = [_sentence("; ".join([language.say(base.words), *hands]) + ".")]
    ins = [*_name_breaths(figure, inhale, language), *name_moves(exhale, inhale, language)]
    outs = name_moves(inhale, exhale, language)
    for when, pressing in name_presses(inhale, exhale, language):
        if when is None:
            parts.append(language.say("All the time {pressing}.", pressing=pressing))
        ins += [pressing] if when is inhale else []
        outs += [pressing] if when is exhale else []
    if ins:
        parts.append(language.say("On the in-breath {changes}.", changes=language.all_of(ins)))
    if outs:
        parts.append(language.say("On the out-breath {changes}.", changes=language.all_of(outs)))
    if figure.props:
        props = [language.say(_PROPS[prop]) for prop in figure.props]
        parts.append(language.say("With {props}.", props=language.all_of(props)))
    return " ".join(parts)


def _name_hands(hands: Mapping[str, str], language: Language) -> Iterable[str]:
    places = set(hands.values())
    if len(hands) == 2 and len(places) == 1:
        place = places.pop()
        where = language.say(_BOTH_SPOTS.get(place, _SPOTS[place]))
        yield language.say("both hands {where}", where=where)
        return
    for side in sorted(hands):
        text = mark("left hand {where}") if side == "left" else mark("right hand {where}")
        yield language.say(text, where=language.say(_SPOTS[hands[side]]))


def _name_breaths(figure: Figure, scene: Scene, language: Language) -> Iterable[str]:
    for place in figure.breath:
        is_hanging = place is BreathPlace.BELLY and scene.skeleton.chest[0][2] < -_FACING_DOWN
        yield language.say(mark("the belly fills downwards") if is_hanging else _BREATHS[place])


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
