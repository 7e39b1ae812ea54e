import pytest

from builder.checks.hands_on import find_hands_on_without_consent
from builder.course.lesson import Passage

HANDS_ON = frozenset({"hands-on"})


def found(change_lesson, note, traits=HANDS_ON, **parts):
    notes = (Passage(note, 31),)
    course = change_lesson(coach_notes=notes, named_traits=traits, **parts)
    return [str(finding) for finding in find_hands_on_without_consent(course)]


TOUCHES = [
    "Lay your hand on their lower ribs.",
    "Place your hands where the ribs are widest.",
    "Put a flat hand under the low back.",
    "Touch the slower side.",
    "Gently touch them on the shoulder.",
    "Guide their pelvis with your hand.",
    "Press on their ribs as they breathe out.",
    "Hold their ankles.",
    "With your palm against their back, follow the breath.",
    "Stand behind them and rest flat palms on the lower ribs.",
    "Steady their hips from behind.",
    "Press down on the ribs with both hands.",
    "Pull gently on the leg with one hand.",
]


@pytest.mark.parametrize("note", TOUCHES)
def test_touch_without_a_question_is_found(change_lesson, note):
    (line,) = found(change_lesson, note)
    assert ":31:1: N108" in line
    assert "and nothing says to ask first" in line


@pytest.mark.parametrize("note", TOUCHES)
def test_touch_after_a_question_is_fine(change_lesson, note):
    assert found(change_lesson, f"Ask first. {note}") == []
    assert found(change_lesson, f"{note} Only after consent.") == []


@pytest.mark.parametrize(
    ("note", "words"),
    [
        ("Ask first. Adjust the hips without asking.", "Adjust the hips without asking"),
        ("Ask first. If need be, touch them unasked.", "touch them unasked"),
    ],
)
def test_leaving_the_question_out_is_found_whatever_else_is_said(change_lesson, note, words):
    (line,) = [line for line in found(change_lesson, note) if "leaves the question out" in line]
    assert f'"{words}" leaves the question out' in line


@pytest.mark.parametrize(
    "note", ["Ask first. Never touch without asking.", "Ask first; don't press unasked."]
)
def test_a_warning_of_unasked_touch_is_fine(change_lesson, note):
    assert found(change_lesson, note) == []


@pytest.mark.parametrize("note", TOUCHES)
def test_touch_needs_its_trait(change_lesson, note):
    (line,) = found(change_lesson, f"Ask first. {note}", frozenset())
    assert "and traits doesn't say hands-on; add hands-on to traits" in line


@pytest.mark.parametrize(
    "note",
    [
        "Hands off during holds.",
        "No touch here; your voice is enough.",
        "Your hands stay with you.",
        "Keep your hands to yourself.",
        "Don't touch the belly.",
        "Keep your hands behind your back as you count.",
        "Put one hand up to stop the set.",
        "Ask them to lay a hand on the slower side.",
        "Their fingers touch the floor.",
        "Show it on your own pelvis.",
        "Watch the hand from the side.",
        "Support their head with a pillow.",
        "If they hold their breath, ask a question.",
        "Move their mat nearer to the wall.",
        "Have them press their knees together.",
        "Touch would only make them push.",
    ],
)
def test_no_alarm_where_nobody_is_touched(change_lesson, note):
    assert found(change_lesson, note, frozenset()) == []


@pytest.mark.parametrize(
    "note",
    [
        "There is no need to ask first. Press on their ribs.",
        "Lay your hand on their ribs without asking first.",
        "Without consent, hold their ankles.",
    ],
)
def test_a_question_left_out_is_no_question(change_lesson, note):
    assert len(found(change_lesson, note)) == 1


def test_a_named_trait_needs_the_question_too(change_lesson):
    (line,) = found(change_lesson, "Look from the feet.")
    assert "hands-on help is named, and no coach note says to ask first" in line


@pytest.mark.parametrize(
    ("step", "alarms"),
    [
        ("Place your hands on your ribs.", 0),
        ("Press your palm against your knee.", 0),
        ("Let a partner lay their hands on your back.", 1),
        ("Your coach presses your shoulders down.", 1),
        ("Tell your coach which positions you avoid and whether hands-on help is welcome.", 0),
        ("Ask your coach to move the mat.", 0),
    ],
)
def test_steps_speak_of_the_client_s_own_hands(change_lesson, step, alarms):
    steps = (Passage(step, 21),)
    assert len(found(change_lesson, "Look on.", frozenset(), steps=steps)) == alarms


@pytest.mark.parametrize("part", ["set_up", "steps", "if_hard"])
def test_every_text_for_clients_is_read(change_lesson, part):
    words = (Passage("Your coach presses your shoulders down.", 21),)
    assert len(found(change_lesson, "Look on.", frozenset(), **{part: words})) == 1


def test_a_typed_apostrophe_is_read_like_a_straight_one(change_lesson):
    """The words are quoted as they were written."""
    for mark in "'\u2019":
        assert found(change_lesson, f"Don{mark}t touch the belly.", frozenset()) == []
        (line,) = found(change_lesson, f"Don{mark}t ask first. Hold their ankles.")
        assert '"Hold their ankles", and nothing says to ask first; write: ask first' in line


def test_each_touch_is_told(change_lesson):
    steps = (
        Passage("Your coach presses your shoulders down.", 21),
        Passage("Let a partner lay their hands on your back.", 22),
    )
    assert len(found(change_lesson, "Ask first.", frozenset(), steps=steps)) == 2
