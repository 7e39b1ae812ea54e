"""A figure in words: how the body lies, where the hands are, what each breath changes."""

from dataclasses import replace

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Figure, Stance
from builder.course.pose import Arm, Leg, Spine
from builder.drawing.figure.stage import set_scenes
from builder.drawing.figure.words import describe, name_figure
from builder.drawing.labels import ENGLISH
from builder.sums.solids import PLACINGS
from builder.sums.spots import HAND_PLACES
from tests.languages import make_language


def say(figure: Figure) -> str:
    return describe(figure, set_scenes(figure), ENGLISH.language)


def test_the_title_is_the_position(make_figure) -> None:
    assert (
        name_figure(make_figure(), ENGLISH.language) == "Lying on the back, knees bent, feet flat"
    )


def test_hands_are_named_with_their_place(make_figure) -> None:
    two = make_figure(hands={"left": "belly", "right": "chest"})
    assert "; left hand on the belly; right hand on the chest." in say(two)
    both = make_figure(hands={"left": "ribs", "right": "ribs"})
    assert "; both hands on the lower ribs." in say(both)
    assert "hand" not in say(make_figure())


def test_both_hands_on_a_place_of_each_side_are_told_so(make_figure) -> None:
    text = say(make_figure(hands={"left": "hip-bone", "right": "hip-bone"}))
    assert "; both hands on the hip bones." in text


@pytest.mark.parametrize("place", sorted(HAND_PLACES))
def test_every_place_of_a_hand_has_words(make_figure, place: str) -> None:
    text = say(make_figure("dead-bug", hands={"right": place}))
    assert "; right hand " in text


@pytest.mark.parametrize(("prop", "how"), [(prop, next(iter(PLACINGS[prop]))) for prop in PLACINGS])
def test_every_prop_that_is_drawn_has_a_word(make_figure, prop: str, how: str) -> None:
    assert say(make_figure(props={prop: how})).endswith(f"With {prop.replace('-', ' ')}.")


@pytest.mark.parametrize(
    ("place", "words"),
    [
        ("belly", "On the in-breath the belly rises"),
        ("sides", "On the in-breath the ribs widen to the sides"),
        ("left", "On the in-breath the left ribs widen"),
        ("right", "On the in-breath the right ribs widen"),
        ("back", "On the in-breath the ribs widen to the back"),
        ("chest", "On the in-breath the chest lifts"),
    ],
)
def test_a_breath_is_told_where_it_goes(make_figure, place: str, words: str) -> None:
    assert words in say(make_figure(breath=(place,)))


def test_a_belly_that_hangs_does_not_rise(make_figure) -> None:
    text = say(make_figure("all-fours", breath=("belly",)))
    assert "On the in-breath the belly fills downwards." in text


def test_two_places_of_a_breath_are_joined(make_figure) -> None:
    text = say(make_figure(breath=("belly", "sides")))
    assert "On the in-breath the belly rises and the ribs widen to the sides." in text


def test_moves_are_told_on_the_breath_on_which_they_happen(make_figure) -> None:
    text = say(make_figure("dead-bug", left_arm=Arm(lift=160), right_leg=Leg(hip=45, knee=30)))
    before, after = text.split("On the out-breath ")
    assert "left arm reaches past the head" in after
    assert "right leg moves away" in after or "right leg lowers" in after
    assert "left arm" in before.split("On the in-breath ")[1]
    assert "right arm" not in text
    assert "left leg" not in text


def test_a_tuck_is_told(make_figure) -> None:
    text = say(make_figure(spine=Spine(nod=8, tuck=12)))
    assert "On the out-breath" in text
    assert "the tail tucks" in text


def test_another_position_on_the_out_breath_is_told(make_figure) -> None:
    sitting = make_figure("sitting")
    base = BASE_POSES["standing"]
    up = replace(sitting, exhale=Stance("standing", base.pose, base.contacts))
    assert "the body comes to standing" in say(up)


@pytest.mark.parametrize("base", sorted(BASE_POSES))
def test_a_still_body_is_told_in_one_sentence(make_figure, base: str) -> None:
    text = say(make_figure(base))
    assert text.endswith(".")
    assert text.count(".") == 1
    assert text[0].isupper()


def test_who_lies_the_other_way_round_is_told_alike(make_figure) -> None:
    figure = make_figure("dead-bug", left_arm=Arm(lift=160))
    mirrored = replace(
        figure,
        inhale=replace(figure.inhale, pose=figure.inhale.pose.mirrored()),
        exhale=replace(figure.exhale, pose=figure.exhale.pose.mirrored()),
    )
    assert say(mirrored) == say(figure).replace("left arm", "right arm")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"lie": {"spin": 12.0}}, "On the in-breath the body rolls to its left"),
        ({"lie": {"spin": -12.0}}, "On the in-breath the body rolls to its right"),
        ({"spine": {"turn": -10.0}}, "On the in-breath the chest turns to its right"),
        ({"spine": {"curl": 20.0}}, "On the in-breath the back rounds"),
        ({"spine": {"curl": -20.0}}, "On the in-breath the back sinks"),
        ({"left_leg": {"out": 9.0}}, "On the in-breath the left knee opens outwards"),
    ],
)
def test_what_the_trunk_and_a_knee_do_is_told(make_figure, change, words: str) -> None:
    figure = make_figure("dead-bug")
    pose = figure.exhale.pose
    for part, angles in change.items():
        pose = replace(pose, **{part: replace(getattr(pose, part), **angles)})
    moved = replace(figure, inhale=replace(figure.inhale, pose=pose))
    assert words in say(moved)


def test_a_leg_never_reaches_past_the_head(make_figure) -> None:
    figure = make_figure("dead-bug")
    long = replace(figure.exhale.pose, left_leg=Leg(hip=40, knee=30))
    text = say(replace(figure, inhale=replace(figure.inhale, pose=long)))
    assert "the left leg moves away" in text or "the left leg lowers" in text
    assert "past the head" not in text


SPANISH = {
    "lying on the back, knees over the hips, shins level": "boca arriba, rodillas sobre caderas",
    "right hand {where}": "mano derecha {where}",
    "both hands {where}": "ambas manos {where}",
    "on the belly": "sobre el vientre",
    "on the lower ribs": "sobre las costillas bajas",
    "On the in-breath {changes}.": "Al inhalar, {changes}.",
    "On the out-breath {changes}.": "Al exhalar, {changes}.",
    "{before} and {last}": "{before} y {last}",
    "the belly rises": "el vientre sube",
    "the left arm reaches past the head": "el brazo izquierdo se estira más allá de la cabeza",
    "the left arm comes back": "el brazo izquierdo vuelve",
    "both arms reach past the head": "ambos brazos se estiran más allá de la cabeza",
    "both arms come back": "ambos brazos vuelven",
    "With {props}.": "Con {props}.",
    "mat": "esterilla",
}
GERMAN = {
    "lying on the back, knees over the hips, shins level": "Rückenlage, Knie über der Hüfte",
    "On the in-breath {changes}.": "Beim Einatmen: {changes}.",
    "On the out-breath {changes}.": "Beim Ausatmen: {changes}.",
    "{before} and {last}": "{before} und {last}",
    "the belly rises": "der Bauch hebt sich",
    "both arms reach past the head": "beide Arme strecken sich über den Kopf hinaus",
    "both arms come back": "beide Arme kommen zurück",
    "All the time {pressing}.": "Die ganze Zeit: {pressing}.",
    "the left hand": "die linke Hand",
    "both thighs": "beide Oberschenkel",
    "{who} press the ball": "{who} drücken den Ball",
    "With {props}.": "Mit {props}.",
    "ball": "Ball",
}


def tell(figure: Figure, tag: str, words: dict[str, str]) -> str:
    return describe(figure, set_scenes(figure), make_language(tag, words))


def test_a_sentence_bends_its_words_as_spanish_does(make_figure) -> None:
    one = make_figure("dead-bug", ("belly",), {"right": "belly"}, left_arm=Arm(lift=150))
    assert tell(replace(one, props={"mat": "under"}), "es", SPANISH) == (
        "Boca arriba, rodillas sobre caderas; mano derecha sobre el vientre. "
        "Al inhalar, el vientre sube y el brazo izquierdo vuelve. "
        "Al exhalar, el brazo izquierdo se estira más allá de la cabeza. Con esterilla."
    )
    both = make_figure("dead-bug", left_arm=Arm(lift=150), right_arm=Arm(lift=150))
    assert "Al exhalar, ambos brazos se estiran más allá de la cabeza." in tell(both, "es", SPANISH)


def test_a_sentence_orders_its_words_as_german_does(make_figure) -> None:
    both = make_figure("dead-bug", ("belly",), left_arm=Arm(lift=150), right_arm=Arm(lift=150))
    held = replace(
        both,
        props={"ball": "pinned"},
        inhale=replace(both.inhale, press=("left-hand", "left-knee", "right-knee")),
        exhale=replace(both.exhale, press=("left-hand", "left-knee", "right-knee")),
    )
    assert tell(held, "de", GERMAN) == (
        "Rückenlage, Knie über der Hüfte. "
        "Die ganze Zeit: die linke Hand und beide Oberschenkel drücken den Ball. "
        "Beim Einatmen: der Bauch hebt sich und beide Arme kommen zurück. "
        "Beim Ausatmen: beide Arme strecken sich über den Kopf hinaus. Mit Ball."
    )
